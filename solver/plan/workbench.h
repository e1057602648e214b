// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "materials/tables.h"
#include "mesh/neck_mesh.h"
#include "solver/climate/moisture.h"
#include "solver/history/neck_on_bench.h"
#include "solver/model/build_model.h"
#include "solver/strength/stress_means.h"

namespace overbend::solver
{
// The neck made ready for simulation: everything that all histories of one speed of line share.
struct Workbench
{
  Workbench(const cases::Case &the_case, const mesh::NeckMesh &mesh,
            const materials::Tables &tables, const ModelChoices &choices);
  Workbench(const Workbench &) = delete;

  NeckOnBench neck() { return {the_case, model, bench, lines, mechanics}; }

  const cases::Case &the_case;
  Model model;
  StressMeans means;
  Bench bench;
  BoardLines lines;
  StringPull found_strings, planned_strings;
  Mechanics mechanics;
};

// Temperatures over all phases of the case; coarseness: factor on the error of a step.
ThermalHistory heat_of(const Workbench &workbench, const std::vector<cases::Phase> &phases,
                       double coarseness = 1);

// Moisture over all phases of the case, from what is known of the start.
MoistureHistory moisture_of(const Workbench &workbench, const std::vector<cases::Phase> &phases,
                            const ThermalHistory &heat);
} // namespace overbend::solver
