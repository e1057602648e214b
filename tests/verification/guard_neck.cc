// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/verification/guard_neck.h"

#include "cases/read_case.h"
#include "mesh/make_neck_mesh.h"

namespace overbend::tests
{
cases::Case guard_case(const std::string &more, const std::string &schedule)
{
  return cases::parse_case(R"(title = "guard"
preset = "electric"
[glue]
board = "white PVA"
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
      input{c, mesh, materials::tables(), [](const std::string &) {}, {}}, work(input, {})
{}

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
