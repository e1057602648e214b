// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/json/plan_json_parts.h"
#include "solver/report/pass_clock.h"

namespace overbend::solver
{
namespace
{
// Of each pass: its clock, and what its times are counted from.
Json clocks(const cases::Case &c)
{
  Json all = Json::array();
  for (int pass = 1; pass <= number_of_passes(c); ++pass) {
    const PassClock clock = pass_clock(c, pass);
    all.push_back({{"pass", pass},
                   {"zero_s", clock.zero},
                   {"release_s", clock.release},
                   {"release_on_clock_s", clock.release_on_clock()},
                   {"end_after_release_s", clock.after_release(clock.end)}});
  }
  return all;
}

Json line_beside_probe(const LineHeat &line)
{
  return {{"probe_K", line.probe},         {"middle_K", line.middle},
          {"edges_K", line.edge},          {"hottest_K", line.hottest},
          {"hottest_x_m", line.hottest_x}, {"under_iron_K", line.under_iron}};
}
} // namespace

void add_clocks(const PlanReport &report, Json &plan)
{
  plan["clocks"] = clocks(report.the_case);
  if (report.line_heat)
    plan["line_beside_probe_at_end_of_heat"] = line_beside_probe(*report.line_heat);
}
} // namespace overbend::solver
