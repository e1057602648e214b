// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/read/read_case.h"
#include "mesh/make_neck_mesh.h"
#include "solver/equations/timing_clock.h"
#include "solver/plan/plan.h"

#include <cstdio>
#include <string>

// What moisture costs in a plan: moisture_cost case.toml. Prints wall seconds of the history of
// heat, that of moisture, and of start and plan without and with it.
//
// Measured once each on two cores, the demonstration at half the default resolution (4818 nodes),
// heat + moisture + start + plan: 43.8 s without moisture, 54.2 s with it (1.24 times); with half a
// year of play after it, October to April in a dry house, 60.3 s, 1.11 times the plan alone.
namespace overbend
{
namespace
{
void plan_once(const cases::Case &c, const mesh::NeckMesh &mesh, const char *name, bool moist)
{
  solver::PlanInput input{c, mesh, materials::tables(), [](const std::string &) {}, {}};
  double t = solver::clock_seconds();
  const auto lap = [&](const char *what) {
    const double now = solver::clock_seconds();
    std::printf("%-18s %-10s %7.1f s\n", name, what, now - t);
    t = now;
  };
  solver::Workbench work(input.the_case, input.mesh, input.tables, {});
  lap("model");
  const solver::ThermalHistory heat = solver::heat_of(work, c.phases);
  lap("heat");
  std::printf("   heat states %zu, nodes %u\n", heat.all().size(), work.model.space.n_nodes);
  solver::MoistureHistory moisture;
  if (moist) {
    moisture = solver::moisture_of(work, c.phases, heat);
    lap("moisture");
    std::printf("   moisture states %zu\n", moisture.all().size());
    input.moisture = &moisture;
  }
  const auto found = solver::find_start(work.neck(), work.found_strings,
                                        moist ? moisture.at(0) : std::vector<double>());
  lap("start");
  const auto column = solver::make_plan(input, work, heat, found);
  lap("plan");
  std::printf("   setting %.4f mm %.4f deg, reached %.4f mm, full runs %u, unit runs %u; steps %u, "
              "factorisations %u, law %.1f s, factor %.1f s, solve %.1f s; moisture bow %.4f mm\n",
              1e3 * column.setting.bow, 57.29578 * column.setting.twist, 1e3 * column.reached.bow,
              column.full_runs, column.unit_runs, column.counts.steps, column.counts.factorisations,
              column.counts.seconds_law, column.counts.seconds_factor, column.counts.seconds_solve,
              1e3 * found.diagnosis.moisture_bow);
  for (const auto &end : column.history.phases)
    std::printf("   %-20s bow %8.4f mm  twist %8.4f deg\n", c.phases[end.phase].name.c_str(),
                1e3 * end.reading.bow, 57.29578 * end.reading.twist);
}
} // namespace
} // namespace overbend

int main(int count, char **words)
{
  if (count < 2)
    return 2;
  const auto c = overbend::cases::read_case(words[1]);
  const auto mesh = overbend::mesh::make_neck_mesh(c.neck, c.numerics.resolution);
  overbend::plan_once(c, mesh, "without moisture", false);
  overbend::plan_once(c, mesh, "with moisture", true);
}
