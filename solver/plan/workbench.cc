// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/plan/workbench.h"

#include "cases/read/read_case.h"

namespace overbend::solver
{
Workbench::Workbench(const cases::Case &a_case, const mesh::NeckMesh &mesh,
                     const materials::Tables &tables, const ModelChoices &choices)
    : the_case(a_case), model(build_model(a_case, mesh, tables, choices)), means(model),
      bench(a_case, model, tables), lines(a_case, mesh, model),
      found_strings(make_string_pull(the_case, the_case.strings_found, model, tables,
                                     cases::line_of(the_case, "warp.strings"))),
      planned_strings(make_string_pull(the_case, the_case.strings, model, tables,
                                       cases::line_of(the_case, "strings.set"))),
      mechanics(model)
{}

ThermalHistory heat_of(const Workbench &workbench, const std::vector<cases::Phase> &phases,
                       double coarseness)
{
  HeatOptions options;
  options.error *= coarseness;
  options.first_step *= coarseness;
  const std::vector<double> start(workbench.model.space.n_nodes,
                                  workbench.the_case.room.temperature);
  return simulate_heat(workbench.model, heat_source(workbench.model, workbench.the_case), phases,
                       start, options);
}

MoistureHistory moisture_of(const Workbench &workbench, const std::vector<cases::Phase> &phases,
                            const ThermalHistory &heat)
{
  return simulate_moisture(workbench.model, workbench.the_case, phases, heat,
                           moisture_at_start(workbench.model, workbench.the_case));
}
} // namespace overbend::solver
