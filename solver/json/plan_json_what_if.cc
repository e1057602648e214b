// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/json/plan_json_parts.h"
#include "solver/report/what_if.h"

namespace overbend::solver
{
namespace
{
Json or_null(const std::optional<double> &value)
{
  return value ? Json(*value) : Json(nullptr);
}
} // namespace

void add_what_if(const PlanReport &report, Json &plan)
{
  const std::optional<WhatIf> other = what_if(report);
  if (!other)
    return;
  Json clamps = Json::array();
  for (const WhatIfClamp &one : other->clamp)
    clamps.push_back(
        {{"overbend_m", one.overbend},
         {"is_the_plan", one.is_the_plan},
         {"strung_m",
          {{"slow", one.strung[0]}, {"middle", one.strung[1]}, {"fast", one.strung[2]}}}});
  plan["what_if"] = {{"pass", other->pass},
                     {"clamp", clamps},
                     {"deepest_because", other->deepest_because.empty()
                                             ? Json(nullptr)
                                             : Json(other->deepest_because)},
                     {"strung_with_a_degree_more_m", or_null(other->with_a_degree)},
                     {"strung_with_an_hour_more_m", or_null(other->with_an_hour)}};
}
} // namespace overbend::solver
