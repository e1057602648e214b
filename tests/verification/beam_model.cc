// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/verification/beam_model.h"

#include "mesh/neck_mesh.h"
#include "solver/model/wood_axes.h"

#include <cmath>
#include <stdexcept>

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

materials::Wood elastic_maple()
{
  materials::Wood wood;
  wood.name = "elastic maple";
  wood.E_L = 13.86e9;
  wood.E_R = 0.132 * wood.E_L;
  wood.E_T = 0.065 * wood.E_L;
  wood.G_LR = 0.111 * wood.E_L;
  wood.G_LT = 0.063 * wood.E_L;
  wood.G_RT = 0.02 * wood.E_L;
  wood.nu_LR = 0.424;
  wood.nu_LT = 0.476;
  wood.nu_RT = 0.774;
  return wood;
}

materials::Wood with_chain(materials::Wood wood, const std::vector<double> &times,
                           const std::vector<double> &shares, double irrecoverable,
                           double activation_energy)
{
  wood.creep_time = times;
  wood.creep_share = shares;
  wood.creep_ratio.fill(1);
  wood.irrecoverable_share = irrecoverable;
  wood.activation_energy = activation_energy;
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

materials::Glue thermoplastic_glue()
{
  materials::Glue glue = elastic_glue(0);
  glue.name = "thermoplastic";
  glue.branch_modulus = {120e6, 90e6, 65e6, 42e6, 25e6, 12e6, 0.36e6};
  glue.branch_time = {1e2, 1e3, 1e4, 1e5, 1e6, 1e7, 4e9};
  return glue;
}

void add_glue_line(solver::Model &model, const materials::Glue &glue, double thickness)
{
  solver::GlueLineModel line;
  line.law = std::make_shared<materials::GlueLaw>(glue, thickness, 0.5);
  line.name = glue.name;
  model.glue_line.push_back(line);
}

solver::Model make_model(const mesh::NeckMesh &mesh, const BeamMaterials &m)
{
  solver::Model model;
  model.space = solver::make_space(mesh);
  const auto board = std::make_shared<materials::WoodLaw>(m.board);
  const auto shaft = std::make_shared<materials::WoodLaw>(m.shaft);
  for (unsigned i = 0; i < model.piece.size(); ++i) {
    model.piece[i].law = i == unsigned(mesh::Piece::board) ? board : shaft;
    for (unsigned a = 0; a < 3; ++a)
      for (unsigned k = 0; k < 3; ++k)
        model.piece[i].grain[a][k] = mesh.grain[i][k][a];
  }
  add_glue_line(model, m.glue, m.glue_thickness);
  const unsigned upper = unsigned(mesh::Face::board_glue_upper);
  if (model.space.boundary.count(upper))
    model.glue_point =
        solver::pair_nodes(model.space, upper, unsigned(mesh::Face::board_glue_lower), 0);
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

std::vector<solver::Voigt> model_stress(const solver::Model &model,
                                        const solver::MechanicsState &state)
{
  std::vector<solver::Voigt> stress(state.wood.size());
  for (unsigned c = 0; c < model.space.n_cells; ++c) {
    const auto map = solver::strain_map(model.grain(c));
    for (std::size_t q = 0; q < solver::points_per_cell; ++q) {
      const std::size_t p = c * solver::points_per_cell + q;
      stress[p] = solver::to_model_axes(map, state.wood[p].stress);
    }
  }
  return stress;
}

TimeRun::TimeRun(const Beam &beam) : TimeRun(beam.model, beam.held())
{
  springs = beam.supports();
}

TimeRun::TimeRun(const solver::Model &model, const std::vector<std::pair<unsigned, double>> &held,
                 double start_temperature)
    : load(model.n_unknowns(), 0.), state(solver::unstressed(model)), mechanics(model),
      temperature(start_temperature), n_nodes(model.space.n_nodes)
{
  mechanics.hold(held);
}

void TimeRun::step(double to, double dt)
{
  const std::vector<double> T0(n_nodes, temperature), T1(n_nodes, to);
  mechanics.begin(state, T0, T1, dt);
  std::vector<double> displacement = state.displacement;
  mechanics.equilibrate(springs, load, displacement);
  mechanics.finish(state, displacement);
  temperature = to;
}

void TimeRun::steps(double to, double time, unsigned n)
{
  const double from = temperature;
  for (unsigned i = 1; i <= n; ++i)
    step(from + (to - from) * i / n, time / n);
}
} // namespace overbend::tests
