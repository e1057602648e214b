// SPDX-License-Identifier: GPL-3.0-or-later
#include "viz/drawing/film_times.h"

#include <algorithm>
#include <cmath>

namespace overbend::viz
{
namespace
{
constexpr double frames_of_a_range = 20;
constexpr double least = 0.01; // of a range, from any step to the next: time passes

// Adds changes of a value as shares of its range.
void add_changes(std::vector<double> &sum, const std::vector<double> &value)
{
  const auto [low, high] = std::minmax_element(value.begin(), value.end());
  if (!(*high > *low))
    return;
  for (std::size_t s = 0; s + 1 < value.size(); ++s)
    sum[s] += std::abs(value[s + 1] - value[s]) / (*high - *low);
}

double largest(const std::vector<double> &values)
{
  return values.empty() ? 0 : *std::max_element(values.begin(), values.end());
}
} // namespace

std::vector<double> activity(const RunStory &story)
{
  const solver::ResultsFile &results = story.results();
  const std::size_t n = results.n_steps();
  std::vector<double> sum(n - 1, least), bow(n, 0), warmth(n, 0), slip(n, 0);
  for (std::size_t s = 0; s < n; ++s) {
    bow[s] = story.bow_at(s).value_or(s > 0 ? bow[s - 1] : 0);
    warmth[s] = largest(results.field(s, "temperature"));
    if (results.has_field(s, "glue_slip"))
      slip[s] = largest(results.field(s, "glue_slip"));
  }
  add_changes(sum, bow);
  add_changes(sum, warmth);
  add_changes(sum, slip);
  return sum;
}

std::vector<FilmFrame> film_frames(const std::vector<double> &happens,
                                   const std::vector<std::size_t> &phase_starts)
{
  constexpr int pause = frames_per_second / 3, at_the_end = frames_per_second;
  std::vector<FilmFrame> frames;
  double passed = 0; // frames due so far, less those there are
  for (std::size_t step = 0; step <= happens.size(); ++step) {
    if (std::find(phase_starts.begin(), phase_starts.end(), step) != phase_starts.end())
      frames.insert(frames.end(), pause, {step, 0});
    if (step == happens.size())
      break;
    const double due = frames_of_a_range * happens[step];
    double place = 1 - passed; // of the next frame within this step
    for (; place < due; ++place)
      frames.push_back({step, place / due});
    passed = due - (place - 1);
  }
  frames.insert(frames.end(), at_the_end, {happens.size(), 0});
  return frames;
}
} // namespace overbend::viz
