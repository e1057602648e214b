// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/history/history_run.h"

#include "solver/history/step_control.h"
#include "solver/mechanics/step_climate.h"

#include <algorithm>
#include <sstream>

// Steps in time through the phases.
namespace overbend::solver
{
namespace
{
constexpr double reject_above = 2; // times the allowed error
constexpr unsigned most_cuts = 10;
} // namespace

StepControl::Values controlled(const Reading &r)
{
  // Twist counts by what it lifts an edge 20 mm off the centre line.
  return {r.bow_bass, r.bow, r.bow_treble, 0.02 * r.twist};
}

HistoryRun::HistoryRun(const NeckOnBench &neck, const std::vector<cases::Phase> &phases_,
                       const StringPull &strings_, const ThermalHistory &heat_,
                       const Progress &start, const SimulationOptions &options_)
    : the_case(neck.the_case), phases(phases_), model(neck.model), bench(neck.bench),
      lines(neck.lines), strings(strings_), heat(heat_), mechanics(neck.mechanics),
      options(options_), now(start), control(options_.bow_error)
{}

History HistoryRun::run()
{
  for (unsigned i = 0; i < phases.size(); ++i) {
    try {
      start_phase(i);
    } catch (const StepFailed &failure) {
      throw NotConverged("Phase \"" + phases[i].name +
                         "\" does not converge at its start: " + failure.what());
    }
    march(i);
    finish_phase(i);
  }
  history.end = std::move(now);
  return std::move(history);
}

StepClimate HistoryRun::climate(double from, double to) const
{
  return climate_between(model, heat, options.moisture, from, to);
}

void HistoryRun::march(unsigned i)
{
  const double end = phase_start + phases[i].duration;
  double dt = std::min(options.first_step, phases[i].duration / 4);
  while (time < end - 1e-6) {
    const AirSeries *air = heat.air(time, 0);
    if (air != nullptr && !phases[i].climate.points.empty() && !air->in_days())
      dt = std::min(dt, air->spacing()); // follows the course of the air
    dt = std::min(dt, end - time);
    if (end - time - dt < 0.3 * dt)
      dt = end - time; // no crumbs
    dt = one_step(i, dt);
  }
  phase_start = end;
  time = end;
}

// Takes one step of at most dt; returns the length to try next.
double HistoryRun::one_step(unsigned i, double dt)
{
  std::string why;
  for (unsigned cut = 0; cut <= most_cuts; ++cut) {
    const StepClimate around = climate(time, time + dt);
    if (glue_log_change(model, around, dt) > options.largest_log_shift) {
      dt *= 0.6;
      --cut; // not a failure: the temperature moves fast
      continue;
    }
    try {
      mechanics.begin(now.state, around, dt);
      std::vector<double> u = guess(dt);
      mechanics.equilibrate(bench.springs(now.setup, now.offsets, warmth(around.T1)),
                            bench.load(now.setup), u);
      const double error = control.error(time + dt, controlled(read(lines, u)));
      if (!(error <= reject_above)) {
        dt = control.next(dt, error);
        why = "its error was too large";
        continue;
      }
      const std::vector<double> change = change_to(u);
      finish_step(u, now.setup); // may throw; nothing has moved then
      time += dt;
      last_change = change;
      last_dt = dt;
      record(i);
      control.accept(time, controlled(history.steps.back().reading));
      return control.next(dt, error);
    } catch (const StepFailed &failure) {
      note_cut(i, dt, failure.what());
      why = failure.what();
      dt /= 2;
    }
  }
  std::ostringstream message;
  message << "Phase \"" << phases[i].name << "\" does not converge at " << (time - phase_start) / 60
          << " min: " << why << "; the step was cut to " << dt << " s";
  throw NotConverged(message.str());
}

// The neck moves on as it did in the last step.
std::vector<double> HistoryRun::guess(double dt) const
{
  std::vector<double> u = now.state.displacement;
  if (last_change.empty())
    return u;
  const double share = std::min(1., dt / last_dt);
  for (std::size_t i = 0; i < u.size(); ++i)
    u[i] += share * last_change[i];
  return u;
}

std::vector<double> HistoryRun::change_to(const std::vector<double> &u) const
{
  std::vector<double> change = u;
  for (std::size_t i = 0; i < u.size(); ++i)
    change[i] -= now.state.displacement[i];
  return change;
}

void HistoryRun::note_cut(unsigned i, double dt, const char *why)
{
  std::ostringstream note;
  note << "phase \"" << phases[i].name << "\", " << (time - phase_start) / 60 << " min: a step of "
       << dt << " s was cut in two, because " << why;
  history.notes.push_back(note.str());
}

// Moves base and units to the end of the step just solved.
void HistoryRun::finish_step(const std::vector<double> &u, const BenchSetup &setup)
{
  if (!now.units.empty()) {
    std::vector<std::vector<double>> loads, guesses;
    for (const Unit &unit : now.units) {
      loads.push_back(mechanics.unit_load(unit.state));
      bench.add_unit_load(setup, unit.offsets, mechanics.closed_springs(), loads.back());
      guesses.push_back(unit.state.displacement);
    }
    mechanics.respond(loads, guesses);
    for (std::size_t k = 0; k < now.units.size(); ++k)
      mechanics.finish(now.units[k].state, loads[k], true);
  }
  MechanicsState next = std::move(now.state);
  mechanics.finish(next, u);
  now.state = std::move(next);
}

void HistoryRun::record(unsigned i)
{
  StepRecord step;
  step.time = time;
  step.phase = i;
  step.reading = read(lines, now.state.displacement);
  const std::vector<double> T = heat.at(time);
  step.forces =
      bench.forces(bench.springs(now.setup, now.offsets, warmth(T)), now.state.displacement);
  step.take_up = now.offsets.take_up;
  for (unsigned k = 0; k < bench.n_pulls(); ++k)
    step.slack[k] = now.setup.cords && step.forces.cord[k] == 0;
  for (const Unit &unit : now.units)
    step.unit.push_back(read(lines, unit.state.displacement));
  history.steps.push_back(step);
  if (options.observe)
    options.observe(step, now.state);
}
} // namespace overbend::solver
