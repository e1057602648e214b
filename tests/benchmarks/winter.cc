// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/case/climate.h"
#include "cases/read/read_case.h"
#include "mesh/make_neck_mesh.h"
#include "solver/equations/timing_clock.h"
#include "solver/plan/plan.h"

#include <algorithm>
#include <cstdio>
#include <string>
#include <vector>

// winter [--hours] case.toml ...: what bow and twist of each case do over its phases, from the neck
// as built at the start's moisture, for flat-sawn, rift and quarter-sawn wood in shaft and board;
// with wall seconds. Strings as the phases say. Changes are against the first reading. --hours:
// only wood as the case has it, told in days and then hour by hour, to see what the means over days
// cost.
namespace overbend
{
namespace
{
// Phases of changing air cut into pieces of two days, which follow their hours.
std::vector<cases::Phase> by_hours(const std::vector<cases::Phase> &phases)
{
  constexpr double piece = 2 * 86400, hour = 3600;
  std::vector<cases::Phase> cut;
  for (const cases::Phase &phase : phases) {
    if (phase.climate.points.empty()) {
      cut.push_back(phase);
      continue;
    }
    for (double from = 0; from < phase.duration - 1; from += piece) {
      cases::Phase part = phase;
      part.duration = std::min(piece, phase.duration - from);
      part.climate.period = 0;
      part.climate.points.clear();
      for (double t = 0; t < part.duration + 1; t += hour) {
        const cases::Air air = cases::air_at(phase, from + t);
        part.climate.points.push_back({t, air.temperature, air.humidity});
      }
      cut.push_back(part);
    }
  }
  return cut;
}

void one(cases::Case c)
{
  const double ring_angle = c.neck.shaft.grain.ring_angle;
  const double degrees = 57.29577951;
  double t = solver::clock_seconds();
  const auto mesh = mesh::make_neck_mesh(c.neck, c.numerics.resolution);
  const solver::PlanInput input{c, mesh, materials::tables(), [](const std::string &) {}, {}};
  solver::Workbench work(input.the_case, input.mesh, input.tables, {});
  const solver::ThermalHistory heat = solver::heat_of(work, c.phases);
  const solver::MoistureHistory moisture = solver::moisture_of(work, c.phases, heat);
  const double fields = solver::clock_seconds() - t;
  t = solver::clock_seconds();
  solver::Progress start;
  start.state = solver::unstressed(work.model);
  solver::SimulationOptions options;
  options.bow_error = c.numerics.bow_error;
  options.moisture = &moisture;
  const auto history =
      solver::simulate(work.neck(), c.phases, work.planned_strings, heat, start, options);
  std::printf(
      "%s, rings at %.0f deg: %u nodes, %zu heat and %zu moisture states, %zu steps, %.1f s "
      "+ %.1f s\n",
      c.title.c_str(), degrees * ring_angle, work.model.space.n_nodes, heat.all().size(),
      moisture.all().size(), history.steps.size(), fields, solver::clock_seconds() - t);
  const solver::Reading first = history.phases[0].reading_at_start;
  const auto line = [&](double days, const std::string &phase, const solver::Reading &r,
                        double water) {
    std::printf("  %8.1f d  %-22s bow %+8.4f mm  twist %+8.4f deg  mean moisture %5.2f %%\n", days,
                phase.c_str(), 1e3 * (r.bow - first.bow), degrees * (r.twist - first.twist),
                100 * water);
  };
  const auto mean = [&](double time) {
    double sum = 0;
    const auto m = moisture.at(time);
    for (const double v : m)
      sum += v / double(m.size());
    return sum;
  };
  double next = 0;
  for (const solver::StepRecord &step : history.steps) {
    if (step.time < next && &step != &history.steps.back())
      continue;
    line(step.time / 86400, c.phases[step.phase].name, step.reading, mean(step.time));
    next = step.time + history.steps.back().time / 12;
  }
}
} // namespace
} // namespace overbend

int main(int count, char **words)
{
  bool hours = false;
  for (int i = 1; i < count; ++i) {
    if (std::string(words[i]) == "--hours") {
      hours = true;
      continue;
    }
    auto c = overbend::cases::read_case(words[i]);
    if (hours) {
      overbend::one(c);
      c.phases = overbend::by_hours(c.phases);
      overbend::one(c);
      continue;
    }
    for (const double degrees : {0., 45., 90.}) {
      for (auto *piece : {&c.neck.shaft, &c.neck.board, &c.neck.headstock.piece})
        piece->grain.ring_angle = degrees / 57.29577951;
      overbend::one(c);
    }
  }
  return count > 1 ? 0 : 2;
}
