// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "materials/tables.h"
#include "mesh/layered_beam.h"
#include "solver/mechanics.h"

#include <functional>
#include <string>

// A straight beam as a Model, for comparison with closed forms.
namespace overbend::tests
{
// Isotropic-like elastic material with a Young's modulus along and shear moduli set apart; no creep.
// With nu = 0 a slender solid follows the beam theory that the closed forms assume.
materials::Wood elastic(double modulus, double modulus_across, double shear, double poisson = 0);

// A glue of one shear modulus that does not relax.
materials::Glue elastic_glue(double shear_modulus);

struct BeamMaterials
{
  materials::Wood board, shaft;
  materials::Glue glue;
  double glue_thickness = 0.1e-3;
};

solver::Model make_model(const mesh::NeckMesh &mesh, const BeamMaterials &materials);

// Nodes that satisfy a condition on their place.
std::vector<unsigned> nodes_where(const solver::Space &space,
                                  const std::function<bool(const solver::Vec3 &)> &condition);

// Nodal loads of a traction (N/m^2) on a named face, a function of the place.
std::vector<double> traction_load(const solver::Model &model, mesh::Face face,
                                  const std::function<solver::Vec3(const solver::Vec3 &)> &traction);
}  // namespace overbend::tests
