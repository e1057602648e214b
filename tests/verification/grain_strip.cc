// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/verification/grain_strip.h"

#include "mesh/grain_frames.h"

#include <array>
#include <cmath>

namespace overbend::tests
{
namespace
{
double middle(const Beam &beam)
{
  return (beam.shape.board_thickness - beam.shape.shaft_depth) / 2;
}

mesh::LayeredBeam shape_of(double length, double width, unsigned cells_along, unsigned cells_across)
{
  mesh::LayeredBeam shape;
  shape.length = length;
  shape.width = width;
  shape.cells_along = cells_along;
  shape.cells_across = cells_across;
  shape.glue_line = false;
  return shape;
}
} // namespace

materials::Wood warm_maple()
{
  materials::Wood wood = elastic_maple();
  wood.expansion = {4e-6, 31e-6, 40e-6};
  return wood;
}

OffAxis off_axis(const materials::Wood &wood, double angle, bool flat_sawn)
{
  const double s = std::sin(angle), c = std::cos(angle);
  const double s11 = 1 / wood.E_L, s22 = 1 / (flat_sawn ? wood.E_T : wood.E_R),
               s12 = -(flat_sawn ? wood.nu_LT : wood.nu_LR) / wood.E_L,
               s66 = 1 / (flat_sawn ? wood.G_LT : wood.G_LR);
  return {s11 * std::pow(c, 4) + (2 * s12 + s66) * s * s * c * c + s22 * std::pow(s, 4),
          (2 * s11 - 2 * s12 - s66) * s * std::pow(c, 3) -
              (2 * s22 - 2 * s12 - s66) * std::pow(s, 3) * c};
}

double angle_ply_twist(const materials::Wood &wood, double angle, double layer, double warming)
{
  return angle_ply_twist(wood, angle, layer,
                         PlyLoad{wood.expansion[0] * warming, wood.expansion[1] * warming, 0});
}

double angle_ply_twist(const materials::Wood &wood, double angle, double layer,
                       const PlyLoad &asked)
{
  using Matrix = std::array<std::array<double, 6>, 6>;
  Matrix abd{};
  std::array<double, 6> load{asked.pull, 0, 0, 0, 0, 0};
  const double q = 1 / (1 - wood.nu_LR * wood.nu_LR * wood.E_R / wood.E_L);
  const double q11 = q * wood.E_L, q22 = q * wood.E_R, q12 = q * wood.nu_LR * wood.E_R,
               q66 = wood.G_LR;
  for (const int sign : {1, -1}) {
    const double s = std::sin(sign * angle), c = std::cos(angle);
    // Rows: strains of L, R, LR from those of x, y, xy; the stiffness turns by its congruence.
    const double turn[3][3] = {
        {c * c, s * s, s * c}, {s * s, c * c, -s * c}, {-2 * s * c, 2 * s * c, c * c - s * s}};
    const double own[3][3] = {{q11, q12, 0}, {q12, q22, 0}, {0, 0, q66}};
    const double free_strain[3] = {asked.free_along, asked.free_across, 0};
    const double first = layer, second = sign * layer * layer / 2, third = std::pow(layer, 3) / 3;
    for (unsigned i = 0; i < 3; ++i)
      for (unsigned a = 0; a < 3; ++a)
        for (unsigned b = 0; b < 3; ++b) {
          load[i] += first * turn[a][i] * own[a][b] * free_strain[b];
          load[3 + i] += second * turn[a][i] * own[a][b] * free_strain[b];
          for (unsigned j = 0; j < 3; ++j) {
            const double k = turn[a][i] * own[a][b] * turn[b][j];
            abd[i][j] += first * k;
            abd[i][3 + j] += second * k;
            abd[3 + i][j] += second * k;
            abd[3 + i][3 + j] += third * k;
          }
        }
  }
  for (unsigned k = 0; k < 6; ++k)
    for (unsigned i = 0; i < 6; ++i) {
      if (i == k)
        continue;
      const double f = abd[i][k] / abd[k][k];
      for (unsigned j = k; j < 6; ++j)
        abd[i][j] -= f * abd[k][j];
      load[i] -= f * load[k];
    }
  return -load[5] / abd[5][5] / 2;
}

Beam strip(double length, double width, double thickness, unsigned cells_along,
           unsigned cells_across)
{
  mesh::LayeredBeam shape = shape_of(length, width, cells_along, cells_across);
  shape.board_thickness = 0;
  shape.shaft_depth = thickness;
  shape.cells_shaft = 2;
  return {shape, {warm_maple(), warm_maple(), {}}};
}

Beam two_layers(double length, double width, double thickness, unsigned cells_along,
                unsigned cells_across)
{
  mesh::LayeredBeam shape = shape_of(length, width, cells_along, cells_across);
  shape.board_thickness = shape.shaft_depth = thickness;
  shape.cells_board = shape.cells_shaft = 1;
  return {shape, {warm_maple(), warm_maple(), {}}};
}

void set_grain(Beam &beam, const std::function<cases::Grain(mesh::Piece, double)> &grain)
{
  const solver::Space &space = beam.model.space;
  beam.model.cell_grain.resize(space.n_cells);
  for (unsigned c = 0; c < space.n_cells; ++c) {
    const double x = space.position[space.cell_node[c][13]][0];
    const mesh::GrainFrame frame = mesh::grain_frame(grain(mesh::Piece(space.piece[c]), x));
    for (unsigned a = 0; a < 3; ++a)
      for (unsigned k = 0; k < 3; ++k)
        beam.model.cell_grain[c][a][k] = frame[k][a];
  }
}

cases::Grain run_out_across(double angle, bool flat_sawn)
{
  return {flat_sawn ? 0 : std::acos(0.), std::tan(angle), 0};
}

namespace
{
// Six unknowns, so nothing but rigid motion is taken away.
std::vector<std::pair<unsigned, double>> rigid_motion(const Beam &beam)
{
  const double length = beam.shape.length, edge = beam.shape.width / 2, z = middle(beam);
  const unsigned origin = beam.node(0, 0, z), side = beam.node(0, edge, z),
                 end = beam.node(length, 0, z);
  return {{3 * origin, 0.}, {3 * origin + 1, 0.}, {3 * origin + 2, 0.},
          {3 * side, 0.},   {3 * side + 2, 0.},   {3 * end + 2, 0.}};
}
} // namespace

materials::Wood swelling_maple()
{
  materials::Wood wood = warm_maple();
  wood.shrinkage_R = 0.048; // Wood Handbook ch. 4
  wood.shrinkage_T = 0.099;
  wood.swelling_L_dry = 0.0179; // of spruce, as a number
  wood.swelling_L_damp = 0.0023;
  return wood;
}

std::vector<double> dried_displacement(Beam &beam, double built, double moisture)
{
  const auto law = std::make_shared<materials::WoodLaw>(swelling_maple(), 1., built);
  for (solver::PieceModel &piece : beam.model.piece)
    piece.law = law;
  solver::Mechanics mechanics(beam.model);
  mechanics.hold(rigid_motion(beam));
  mechanics.tolerance = 1e-12;
  solver::MechanicsState state = solver::unstressed(beam.model);
  const auto everywhere = [&](double value) {
    return std::vector<double>(beam.model.space.n_nodes, value);
  };
  const auto warmth = everywhere(293.15), start = everywhere(built);
  mechanics.begin(state, {warmth, warmth, start, everywhere(moisture), start, {}, {}}, 3600);
  std::vector<double> displacement = state.displacement;
  mechanics.equilibrate({}, beam.no_load(), displacement);
  return displacement;
}

std::vector<double> free_displacement(const Beam &beam, double warming,
                                      const std::vector<double> &load)
{
  TimeRun run(beam.model, rigid_motion(beam));
  run.mechanics.tolerance = 1e-12;
  run.load = load;
  run.step(run.temperature + warming, 0);
  return run.state.displacement;
}

std::vector<double> end_load(const Beam &beam,
                             const std::function<double(double y, double z)> &stress)
{
  std::vector<double> load = beam.no_load();
  const auto add = [&](mesh::Face face, double sign) {
    if (beam.model.space.boundary.count(unsigned(face)) == 0)
      return;
    const auto part = traction_load(beam.model, face, [&](const solver::Vec3 &p) -> solver::Vec3 {
      return {sign * stress(p[1], p[2] - middle(beam)), 0, 0};
    });
    for (std::size_t i = 0; i < load.size(); ++i)
      load[i] += part[i];
  };
  add(mesh::Face::board_nut_end, -1);
  add(mesh::Face::headstock_other, -1);
  add(mesh::Face::board_body_end, 1);
  add(mesh::Face::body, 1);
  return load;
}

double turn(const Beam &beam, const std::vector<double> &displacement, double x)
{
  const double edge = beam.shape.width / 2, z = middle(beam);
  return (displacement[3 * beam.node(x, edge, z) + 2] -
          displacement[3 * beam.node(x, -edge, z) + 2]) /
         beam.shape.width;
}

double shear(const Beam &beam, const std::vector<double> &displacement, double x0, double x1)
{
  const double edge = beam.shape.width / 2, z = middle(beam);
  const auto across = [&](double x) {
    return (displacement[3 * beam.node(x, edge, z)] - displacement[3 * beam.node(x, -edge, z)]) /
           beam.shape.width;
  };
  return (across(x0) + across(x1)) / 2 +
         (displacement[3 * beam.node(x1, 0, z) + 1] - displacement[3 * beam.node(x0, 0, z) + 1]) /
             (x1 - x0);
}
} // namespace overbend::tests
