// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cases/case/case.h"
#include "materials/sorption.h"
#include "materials/tables.h"
#include "mesh/neck_mesh.h"
#include "solver/model/model.h"

namespace overbend::solver
{
// Indices of the glue lines in Model::glue_line.
constexpr unsigned board_line = 0, scarf_line = 1, tongue_line = 2;

// What is not in the case: how fast the glue line flows within its spread (place_in_spread), and
// the stiffness fitted from the strung bow.
struct ModelChoices
{
  double line_place = 0;
  double stiffness_factor = 1;
};

// Which curve of sorption the case asks for, in the words of the law.
materials::SorptionBranch sorption_branch(const cases::Case &the_case);

// Moisture content at which the neck was glued together: at rest with the builder's shop.
double built_moisture(const cases::Case &the_case);

// Joins mesh, woods and glues of a case into the model of the solver. A glue that is not known is
// taken as white PVA, the glue of most necks that straighten at all; the plan then runs three
// speeds of line. Moisture is the equilibrium with the room.
Model build_model(const cases::Case &the_case, const mesh::NeckMesh &mesh,
                  const materials::Tables &tables, const ModelChoices &choices = {});
} // namespace overbend::solver
