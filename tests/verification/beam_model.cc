// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/verification/beam_model.h"

#include "mesh/neck_mesh.h"

namespace overbend::tests
{
materials::Wood elastic(double modulus, double modulus_across, double shear, double poisson)
{
  materials::Wood wood;
  wood.name = "elastic";
  wood.E_L = modulus;
  wood.E_R = wood.E_T = modulus_across;
  wood.G_RT = wood.G_LT = wood.G_LR = shear;
  wood.nu_LR = wood.nu_LT = wood.nu_RT = poisson;
  return wood;
}

materials::Glue elastic_glue(double shear_modulus)
{
  materials::Glue glue;
  glue.name = "elastic";
  glue.plateau = shear_modulus;
  glue.bulk_modulus = 3e9;
  glue.wlf_c1 = 17.4;
  glue.wlf_c2 = 51.6;
  glue.activation_energy = 3e5;
  glue.softening = 305;
  return glue;
}

solver::Model make_model(const mesh::NeckMesh &mesh, const BeamMaterials &m)
{
  solver::Model model;
  model.space = solver::make_space(mesh.triangulation, *mesh.mapping);
  const auto board = std::make_shared<materials::WoodLaw>(m.board);
  const auto shaft = std::make_shared<materials::WoodLaw>(m.shaft);
  for (unsigned i = 0; i < model.piece.size(); ++i) {
    model.piece[i].law = i == unsigned(mesh::Piece::board) ? board : shaft;
    for (unsigned a = 0; a < 3; ++a)
      for (unsigned k = 0; k < 3; ++k)
        model.piece[i].grain[a][k] = mesh.grain[i][k][a];
  }
  model.glue_line = {{std::make_shared<materials::GlueLaw>(m.glue, m.glue_thickness, 0.5), "board"}};
  const unsigned upper = unsigned(mesh::Face::board_glue_upper);
  if (model.space.boundary.count(upper))
    model.glue_point = solver::pair_nodes(model.space, upper, unsigned(mesh::Face::board_glue_lower), 0);
  return model;
}

std::vector<unsigned> nodes_where(const solver::Space &space,
                                  const std::function<bool(const solver::Vec3 &)> &condition)
{
  std::vector<unsigned> nodes;
  for (unsigned n = 0; n < space.n_nodes; ++n)
    if (condition(space.position[n]))
      nodes.push_back(n);
  return nodes;
}

std::vector<double> traction_load(const solver::Model &model, mesh::Face face,
                                  const std::function<solver::Vec3(const solver::Vec3 &)> &traction)
{
  std::vector<double> load(model.n_unknowns(), 0.);
  for (const auto &f : model.space.boundary.at(unsigned(face)))
    for (unsigned q = 0; q < solver::nodes_per_face; ++q) {
      const solver::Vec3 t = traction(model.space.position[f.node[q]]);
      for (unsigned i = 0; i < 3; ++i)
        load[3 * f.node[q] + i] += f.weight[q] * t[i];
    }
  return load;
}
}  // namespace overbend::tests
