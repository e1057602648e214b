// SPDX-License-Identifier: GPL-3.0-or-later
#include "viz/paraview/paraview_opener.h"

#include "viz/run/run_story.h"

#include <algorithm>
#include <cmath>

namespace overbend::viz
{
namespace
{
constexpr double hour = 3600;

// The largest amount that 997 of 1000 nodes stay below: at corners a computed stress grows without
// end.
double without_corners(std::vector<double> values)
{
  for (double &value : values)
    value = std::abs(value);
  const auto most = values.begin() + long(0.997 * double(values.size() - 1));
  std::nth_element(values.begin(), most, values.end());
  return *most;
}

std::string caption(const RunStory &story, std::size_t step)
{
  const std::string reading = story.reading(step);
  return story.moment(step) + (reading.empty() ? "" : "\n" + reading);
}

void set_ranges(const RunStory &story, OpenerView &view)
{
  const RunStory::Extreme use = story.extreme("use_of_strength");
  view.opens_at = story.results().time(use.step) / hour;
  const double stress = without_corners(
      story.results().field(story.extreme("stress_along_grain").step, "stress_along_grain"));
  view.stress.low = -stress;
  view.stress.high = stress;
  const RunStory::Extreme warmth = story.extreme("temperature");
  view.temperature.low = warmth.least;
  view.temperature.high = warmth.largest;
  if (!story.results().mesh().glue.lines.empty())
    view.slip.high = story.extreme("glue_slip").largest;
  for (OpenerField *field : {&view.stress, &view.temperature, &view.slip})
    if (!(field->high > field->low))
      field->high = field->low + 1; // nothing happened
}
} // namespace

OpenerView opener_view(const std::string &folder)
{
  const RunStory story(folder);
  OpenerView view;
  view.magnification = story.magnification();
  set_ranges(story, view);
  for (const RunStory::PhaseSteps &phase : story.phases())
    view.stages.push_back({story.results().time(phase.last) / hour, "end of " + phase.name});
  for (std::size_t step = 0; step < story.results().n_steps(); ++step)
    view.captions.push_back({story.results().time(step) / hour, caption(story, step)});
  view.bench = bench_places(folder, story.the_case());
  return view;
}
} // namespace overbend::viz
