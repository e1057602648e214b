// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/verification/block_model.h"

#include "mesh/neck_mesh.h"
#include "mesh/to_deal_ii.h"

#include <deal.II/base/quadrature_lib.h>
#include <deal.II/base/symmetric_tensor.h>
#include <deal.II/fe/fe_q.h>
#include <deal.II/fe/fe_tools.h>

#include <cmath>
#include <random>
#include <set>

namespace overbend::tests
{
namespace
{
constexpr double edge = 0.1; // m

using Point3 = dealii::Point<3>;

Tensor2 rotation(unsigned axis, double angle)
{
  const unsigned j = (axis + 1) % 3, k = (axis + 2) % 3;
  Tensor2 r;
  r[axis][axis] = 1;
  r[j][j] = r[k][k] = std::cos(angle);
  r[k][j] = std::sin(angle);
  r[j][k] = -std::sin(angle);
  return r;
}
} // namespace

solver::Model distorted_block(unsigned n, double amount, Distortion kind,
                              const materials::Wood &wood)
{
  std::mt19937 generator(7);
  std::uniform_real_distribution<double> uniform(-1, 1);
  const unsigned side = 2 * n + 1;
  std::vector<Point3> shift(side * side * side);
  for (Point3 &s : shift)
    for (unsigned i = 0; i < 3; ++i)
      s[i] = amount * edge / (2 * n) * uniform(generator);

  mesh::HexBlock block;
  block.cells = {{n, n, n}};
  block.piece = [](unsigned, unsigned, unsigned) { return mesh::Piece::shaft; };
  block.side.fill(mesh::Face::back);
  block.point = [=](unsigned i, unsigned j, unsigned k) {
    Point3 p(i * edge / (2 * n), j * edge / (2 * n), k * edge / (2 * n));
    if (kind == Distortion::random)
      return Point3(p + shift[i + side * (j + side * k)]);
    const double f = 2 * 3.14159 / edge / 1.7;
    return Point3(p + amount * edge / 8 *
                          Point3(std::sin(f * p[1]) * std::cos(f * p[2]),
                                 std::sin(f * (p[0] + p[2])), std::cos(f * p[0] - f * p[1])));
  };
  mesh::NeckMesh mesh;
  mesh.hexes.add(block);
  mesh.hexes.finish();
  mesh::fill_triangulation(mesh);
  mesh.grain.fill(slanting_grain());
  return make_model(mesh, {wood, wood, elastic_glue(0)});
}

Tensor2 slanting_grain()
{
  return rotation(2, 0.3) * rotation(1, -0.7) * rotation(0, 1.1);
}

Tensor2 grain_of(const solver::PieceModel &piece)
{
  Tensor2 grain;
  for (unsigned a = 0; a < 3; ++a)
    for (unsigned i = 0; i < 3; ++i)
      grain[i][a] = piece.grain[a][i];
  return grain;
}

Tensor4 stiffness_tensor(const materials::Wood &w, const Tensor2 &grain)
{
  Tensor2 s; // compliance of the normal block
  s[0][0] = 1 / w.E_L;
  s[1][1] = 1 / w.E_R;
  s[2][2] = 1 / w.E_T;
  s[0][1] = s[1][0] = -w.nu_LR / w.E_L;
  s[0][2] = s[2][0] = -w.nu_LT / w.E_L;
  s[1][2] = s[2][1] = -w.nu_RT / w.E_R;
  const Tensor2 c = dealii::invert(s);
  Tensor4 own;
  for (unsigned a = 0; a < 3; ++a)
    for (unsigned b = 0; b < 3; ++b) {
      own[a][a][b][b] = c[a][b];
      if (a == b)
        continue;
      const double g = a + b == 1 ? w.G_LR : a + b == 2 ? w.G_LT : w.G_RT;
      own[a][b][a][b] = own[a][b][b][a] = g;
    }
  Tensor4 turned;
  for (unsigned ijkl = 0; ijkl < 81; ++ijkl)
    for (unsigned abcd = 0; abcd < 81; ++abcd) {
      const unsigned i = ijkl % 3, j = ijkl / 3 % 3, k = ijkl / 9 % 3, l = ijkl / 27;
      const unsigned a = abcd % 3, b = abcd / 3 % 3, e = abcd / 9 % 3, d = abcd / 27;
      turned[i][j][k][l] += grain[i][a] * grain[j][b] * grain[k][e] * grain[l][d] * own[a][b][e][d];
    }
  return turned;
}

std::vector<unsigned> boundary_nodes(const solver::Space &space)
{
  std::set<unsigned> nodes;
  for (const auto &[id, faces] : space.boundary)
    for (const auto &face : faces)
      nodes.insert(face.node.begin(), face.node.end());
  return {nodes.begin(), nodes.end()};
}

namespace
{
// Values of the 27 shape functions of a cell at the points of a rule.
std::vector<std::array<double, 27>> shapes_at(const dealii::Quadrature<3> &rule)
{
  const dealii::FE_Q<3> element(2);
  const auto order = dealii::FETools::lexicographic_to_hierarchic_numbering<3>(2);
  std::vector<std::array<double, 27>> shapes(rule.size());
  for (unsigned q = 0; q < rule.size(); ++q)
    for (unsigned a = 0; a < 27; ++a)
      shapes[q][a] = element.shape_value(order[a], rule.point(q));
  return shapes;
}

// Place and volume of the points of a rule in a cell.
void place_points(const solver::Space &space, unsigned cell, const dealii::Quadrature<3> &rule,
                  std::vector<solver::Vec3> &place, std::vector<double> &volume)
{
  const dealii::FE_Q<3> element(2);
  const auto order = dealii::FETools::lexicographic_to_hierarchic_numbering<3>(2);
  place.assign(rule.size(), {});
  volume.assign(rule.size(), 0);
  for (unsigned q = 0; q < rule.size(); ++q) {
    Tensor2 jacobian;
    for (unsigned a = 0; a < 27; ++a) {
      const solver::Vec3 &x = space.position[space.cell_node[cell][a]];
      const double value = element.shape_value(order[a], rule.point(q));
      const auto slope = element.shape_grad(order[a], rule.point(q));
      for (unsigned i = 0; i < 3; ++i) {
        place[q][i] += value * x[i];
        for (unsigned j = 0; j < 3; ++j)
          jacobian[i][j] += x[i] * slope[j];
      }
    }
    volume[q] = rule.weight(q) * dealii::determinant(jacobian);
  }
}
} // namespace

std::vector<double> body_load(const solver::Model &model,
                              const std::function<solver::Vec3(const solver::Vec3 &)> &force)
{
  const dealii::QGauss<3> rule(5);
  const auto shapes = shapes_at(rule);
  std::vector<double> load(model.n_unknowns(), 0.), volume;
  std::vector<solver::Vec3> place;
  for (unsigned c = 0; c < model.space.n_cells; ++c) {
    place_points(model.space, c, rule, place, volume);
    for (unsigned q = 0; q < rule.size(); ++q) {
      const solver::Vec3 f = force(place[q]);
      for (unsigned a = 0; a < 27; ++a)
        for (unsigned i = 0; i < 3; ++i)
          load[3 * model.space.cell_node[c][a] + i] += volume[q] * shapes[q][a] * f[i];
    }
  }
  return load;
}

double l2_error(const solver::Model &model, const std::vector<double> &displacement,
                const std::function<solver::Vec3(const solver::Vec3 &)> &exact)
{
  const dealii::QGauss<3> rule(5);
  const auto shapes = shapes_at(rule);
  double sum = 0;
  std::vector<solver::Vec3> place;
  std::vector<double> volume;
  for (unsigned c = 0; c < model.space.n_cells; ++c) {
    place_points(model.space, c, rule, place, volume);
    for (unsigned q = 0; q < rule.size(); ++q) {
      const solver::Vec3 u = exact(place[q]);
      for (unsigned i = 0; i < 3; ++i) {
        double found = 0;
        for (unsigned a = 0; a < 27; ++a)
          found += shapes[q][a] * displacement[3 * model.space.cell_node[c][a] + i];
        sum += volume[q] * (found - u[i]) * (found - u[i]);
      }
    }
  }
  return std::sqrt(sum);
}
} // namespace overbend::tests
