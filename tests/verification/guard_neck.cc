// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/verification/guard_neck.h"

#include "cases/read/read_case.h"
#include "mesh/make_neck_mesh.h"

namespace overbend::tests
{
cases::Case guard_case(const std::string &more, const std::string &schedule)
{
  return cases::parse_case(R"(title = "guard"
preset = "electric"
[glue]
board = "white PVA"
[board]
slot_depth = "0 mm"
[headstock]
width = "80 mm"
[tuners]
layout = "both sides"
across = "66 mm"
[finish]
kind = "polyester"
binding = "none"
[found]
bow = "0.6 mm"
twist = "0.1 deg"
[warp]
cause = "unknown"
slip_share = "80 %"
[heater]
bar_temperature = "65 degC"
width = "50 mm"
to = "470 mm"
iron_to = "470 mm"
contact = '100 W/(m2 K)'
underside = "shaped"
[schedule]
hold = "2 h"
cool = "5 h"
)" + schedule + R"([numerics]
resolution = 0.5
bow_error = "0.01 mm"
)" + more,
                           "guard.toml");
}

GuardNeck::GuardNeck(cases::Case checked_case)
    : c(std::move(checked_case)), mesh(mesh::make_neck_mesh(c.neck, c.numerics.resolution)),
      input{c, mesh, materials::tables(), [](const std::string &) {}, {}},
      work(input.the_case, input.mesh, input.tables, {})
{}

cases::Climate each_day(const std::vector<AirFrom> &changes)
{
  constexpr double hour = 3600, kelvin = 273.15;
  cases::Climate climate;
  climate.period = 24 * hour;
  for (unsigned h = 0; h < 24; ++h) {
    const AirFrom *now = &changes.at(0);
    for (const AirFrom &change : changes)
      if (change.hour <= h)
        now = &change;
    climate.points.push_back({h * hour, kelvin + now->celsius, now->humidity});
  }
  climate.points.push_back({climate.period, kelvin + changes[0].celsius, changes[0].humidity});
  return climate;
}

solver::History GuardNeck::from_unstressed(const std::vector<cases::Phase> &phases,
                                           const solver::ThermalHistory &heat,
                                           const solver::MoistureHistory &moisture)
{
  solver::Progress start;
  start.state = solver::unstressed(work.model);
  solver::SimulationOptions options;
  options.bow_error = c.numerics.bow_error;
  options.moisture = &moisture;
  return solver::simulate(work.neck(), phases, work.planned_strings, heat, start, options);
}

GuardNeck::AtOnce GuardNeck::at_once(const solver::BenchSetup &setup,
                                     const solver::BenchOffsets &offsets,
                                     const std::vector<double> &extra_load)
{
  const solver::MechanicsState start = solver::unstressed(work.model);
  const std::vector<double> cold(work.model.space.n_nodes, materials::reference_temperature);
  work.mechanics.begin(start, cold, cold, 0);
  std::vector<double> load = work.bench.load(setup);
  for (std::size_t i = 0; i < extra_load.size(); ++i)
    load[i] += extra_load[i];
  const auto springs = work.bench.springs(setup, offsets, 0);
  AtOnce result;
  result.displacement = start.displacement;
  work.mechanics.equilibrate(springs, load, result.displacement);
  result.forces = work.bench.forces(springs, result.displacement);
  result.reading = solver::read(work.lines, result.displacement);
  return result;
}
} // namespace overbend::tests
