// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/verification/beam_model.h"

#include "mesh/neck_mesh.h"

#include <cmath>
#include <stdexcept>

namespace overbend::tests
{
namespace
{
// Far stiffer than the beams (some 1e5 N/m), so that a support hardly gives.
constexpr double support_stiffness = 1e9;
} // namespace

Beam::Beam(const mesh::LayeredBeam &the_shape, const BeamMaterials &the_materials)
    : shape(the_shape), materials(the_materials),
      model(make_model(mesh::make_layered_beam(the_shape), the_materials))
{}

double Beam::EI_layers() const
{
  const double t1 = shape.board_thickness, t2 = shape.shaft_depth;
  return shape.width *
         (materials.board.E_L * std::pow(t1, 3) + materials.shaft.E_L * std::pow(t2, 3)) / 12;
}

double Beam::EI_bonded() const
{
  const double t1 = shape.board_thickness, t2 = shape.shaft_depth;
  if (t1 == 0)
    return EI_layers();
  const double EA1 = materials.board.E_L * shape.width * t1;
  const double EA2 = materials.shaft.E_L * shape.width * t2;
  return EI_layers() + std::pow((t1 + t2) / 2, 2) / (1 / EA1 + 1 / EA2);
}

unsigned Beam::node(double x, double y, double z, bool board) const
{
  for (unsigned c = 0; c < model.space.n_cells; ++c) {
    if (board != (model.space.piece[c] == unsigned(mesh::Piece::board)))
      continue;
    for (const unsigned n : model.space.cell_node[c]) {
      const solver::Vec3 &p = model.space.position[n];
      if (std::hypot(p[0] - x, p[1] - y, p[2] - z) < 1e-7)
        return n;
    }
  }
  throw std::logic_error("no node at this place of the test beam");
}

solver::Row Beam::lift(double x) const
{
  const auto nodes =
      nodes_where(model.space, [&](const solver::Vec3 &p) { return std::abs(p[0] - x) < 1e-7; });
  if (nodes.empty())
    throw std::logic_error("no section at this place of the test beam");
  solver::Row row;
  for (const unsigned n : nodes)
    row.emplace_back(3 * n + 2, 1. / nodes.size());
  return row;
}

double Beam::bow(const std::vector<double> &u) const
{
  return (solver::evaluate(lift(0), u) + solver::evaluate(lift(shape.length), u)) / 2 -
         solver::evaluate(lift(shape.length / 2), u);
}

std::vector<std::pair<unsigned, double>> Beam::held() const
{
  const double low = -shape.shaft_depth, L = shape.length;
  const unsigned corner = node(0, 0, low);
  return {{3 * corner, 0},
          {3 * corner + 1, 0},
          {3 * node(L, 0, low) + 1, 0},
          {3 * node(0, 0, 0) + 1, 0}};
}

std::vector<solver::Spring> Beam::supports() const
{
  solver::Spring spring;
  spring.stiffness = support_stiffness;
  spring.name = "near";
  spring.row = lift(0);
  std::vector<solver::Spring> springs{spring};
  spring.name = "far";
  spring.row = lift(shape.length);
  springs.push_back(spring);
  return springs;
}

solver::Spring Beam::press(double depth) const
{
  solver::Spring spring;
  spring.name = "press";
  spring.row = lift(shape.length / 2);
  spring.stiffness = support_stiffness;
  spring.offset = depth;
  return spring;
}

std::vector<double> Beam::end_moments(double moment) const
{
  const double t1 = shape.board_thickness, t2 = shape.shaft_depth;
  std::vector<double> load(model.n_unknowns(), 0.);
  const auto add = [&](mesh::Face face, double sign, bool board) {
    const double modulus = (board ? materials.board : materials.shaft).E_L;
    const double middle = board ? t1 / 2 : -t2 / 2;
    const auto part = traction_load(model, face, [&](const solver::Vec3 &p) -> solver::Vec3 {
      return {sign * moment * modulus * (p[2] - middle) / EI_layers(), 0, 0};
    });
    for (std::size_t i = 0; i < load.size(); ++i)
      load[i] += part[i];
  };
  // The top is pressed together where the middle sinks.
  add(mesh::Face::headstock_other, 1, false);
  add(mesh::Face::body, -1, false);
  if (t1 > 0) {
    add(mesh::Face::board_nut_end, 1, true);
    add(mesh::Face::board_body_end, -1, true);
  }
  return load;
}

std::vector<double> Beam::solve(const std::vector<double> &load) const
{
  TimeRun run(*this);
  run.load = load;
  run.step(run.temperature, 0);
  return run.state.displacement;
}
} // namespace overbend::tests
