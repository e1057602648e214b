// SPDX-License-Identifier: GPL-3.0-or-later
#include "viz/run/run_story.h"

#include "cases/read/read_case.h"
#include "solver/results/file_error.h"
#include "solver/words/shop_words.h"

#include <algorithm>
#include <cmath>
#include <filesystem>
#include <stdexcept>

namespace overbend::viz
{
namespace
{
std::string data_path(const std::string &folder)
{
  const std::string path = (std::filesystem::path(folder) / "results.h5").string();
  if (!std::filesystem::exists(path))
    throw solver::FileError(path, "is not there", "name the results folder of a run");
  return path;
}

// The columns of readings name fret and rests; the one on the centre line starts like this.
std::vector<double> centre_bow(const std::string &folder)
{
  for (const auto &[name, values] : solver::read_readings(data_path(folder)))
    if (name.rfind("bow centre", 0) == 0)
      return values;
  return {};
}
} // namespace

RunStory::RunStory(const std::string &folder)
    : file(data_path(folder)),
      case_(cases::parse_case(file.case_text(), "case text of the results"))
{
  if (file.n_steps() == 0)
    throw solver::FileError(data_path(folder), "holds no steps", "run the case again");
  for (std::size_t s = 0; s < file.n_steps(); ++s) {
    if (phase_steps.empty() || phase_steps.back().name != file.phase(s))
      phase_steps.push_back({file.phase(s), s, s, file.on_bench(s)});
    phase_steps.back().last = s;
  }
  bow = centre_bow(folder);
  // The neck as found is a step, but no moment of the table.
  if (file.phase(0) == solver::as_found && bow.size() + 1 == file.n_steps())
    bow.insert(bow.begin(), case_.found.bow_centre);
  if (bow.size() != file.n_steps())
    bow.clear(); // a run that was killed has no readings yet
  bow_fret = case_.found.bow_fret;
  tell_passes();
}

void RunStory::tell_passes()
{
  bool clamped = false;
  std::map<int, bool> has_zero;
  for (const PhaseSteps &phase : phase_steps) {
    if (phase.name == solver::as_found)
      continue;
    const int number = phase.on_bench.pass;
    const bool is_new = passes.count(number) == 0;
    Pass &pass = passes[number];
    const double start = file.time(phase.first);
    const bool hot_clamp = phase.on_bench.heated && phase.on_bench.clamped;
    if (is_new || (hot_clamp && !has_zero[number]))
      pass.zero = start;
    has_zero[number] = has_zero[number] || hot_clamp;
    if (phase.on_bench.heated)
      pass.end_of_heating = phase.last;
    if (clamped && !phase.on_bench.clamped && !pass.release) {
      pass.release = start;
      pass.just_released = phase.first;
    }
    clamped = phase.on_bench.clamped;
  }
}

const RunStory::PhaseSteps &RunStory::phase_named(const std::string &name) const
{
  const auto phase = std::find_if(phase_steps.begin(), phase_steps.end(),
                                  [&](const PhaseSteps &p) { return p.name == name; });
  if (phase == phase_steps.end())
    throw std::out_of_range("the results have no phase \"" + name + "\"");
  return *phase;
}

std::optional<std::size_t> RunStory::end_of_heating() const
{
  std::optional<std::size_t> step;
  for (const auto &[number, pass] : passes)
    if (pass.end_of_heating)
      step = pass.end_of_heating;
  return step;
}

std::size_t RunStory::start_of_work() const
{
  return phase_steps.size() > 1 && phase_steps[0].name == solver::as_found ? phase_steps[1].first
                                                                           : 0;
}

std::vector<RunStory::Moment> RunStory::moments() const
{
  std::vector<Moment> list;
  if (start_of_work() > 0)
    list.push_back({"as found", 0, MomentKind::found});
  list.push_back({"at the start", start_of_work(), MomentKind::start});
  for (const auto &[number, pass] : passes) {
    const std::string which = number > 1 ? ", pass " + std::to_string(number) : "";
    if (pass.end_of_heating)
      list.push_back({"end of heating" + which, *pass.end_of_heating, MomentKind::end_of_heating});
    if (pass.just_released)
      list.push_back({"just released" + which, *pass.just_released, MomentKind::released});
  }
  list.push_back({"at the end", last_step(), MomentKind::end});
  return list;
}

std::string RunStory::moment(std::size_t step) const
{
  return moment(file.phase(step), file.time(step));
}

std::string RunStory::moment(const std::string &phase, double time) const
{
  if (phase == solver::as_found)
    return "before the first phase";
  const std::string name = "phase \"" + phase + "\", ";
  const Pass &pass = passes.at(phase_named(phase).on_bench.pass);
  if (pass.release && time >= *pass.release)
    return name + solver::clock_face(time - *pass.release) + " after release";
  return name + "clock " + solver::clock_face(time - pass.zero);
}

std::string RunStory::reading(std::size_t step) const
{
  const std::optional<double> read = bow_at(step);
  return read ? reading_of(*read) : "";
}

std::optional<double> RunStory::bow_at(std::size_t step) const
{
  if (bow.empty() || !std::isfinite(bow[step]))
    return {};
  return bow[step];
}

std::string RunStory::reading_of(double bow_in_m) const
{
  return (case_.readings.edge_on == cases::EdgeOn::wood ? "notched edge on the wood at fret "
                                                        : "straightedge at fret ") +
         std::to_string(bow_fret) + ": " + solver::bow_in_words(bow_in_m);
}

RunStory::Extreme RunStory::extreme(const std::string &field) const
{
  Extreme found{INFINITY, -INFINITY, 0};
  double amount = -1;
  for (std::size_t s = 0; s < file.n_steps(); ++s) {
    const std::vector<double> values = file.field(s, field);
    const auto [least, largest] = std::minmax_element(values.begin(), values.end());
    found.least = std::min(found.least, *least);
    found.largest = std::max(found.largest, *largest);
    if (std::max(-*least, *largest) > amount) {
      amount = std::max(-*least, *largest);
      found.step = s;
    }
  }
  return found;
}

double RunStory::magnification() const
{
  const std::vector<double> &nodes = file.mesh().nodes;
  double from = nodes[0], to = nodes[0], most = 0;
  for (std::size_t n = 0; n < nodes.size(); n += 3) {
    from = std::min(from, nodes[n]);
    to = std::max(to, nodes[n]);
  }
  for (const PhaseSteps &phase : phase_steps)
    for (const std::size_t step : {phase.first, phase.last})
      for (const double u : file.field(step, "displacement"))
        most = std::max(most, std::abs(u));
  const double wanted = (to - from) / 12 / std::max(most, 1e-9);
  double chosen = 1;
  for (const double m : {2., 5., 10., 20., 25., 50., 100., 200., 500., 1000.})
    if (m <= wanted)
      chosen = m;
  return chosen;
}
} // namespace overbend::viz
