// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/report.h"
#include "tests/verification/heat_block.h"

#include <deal.II/fe/mapping_q.h>
#include <deal.II/fe/mapping_q_cache.h>
#include <deal.II/grid/grid_generator.h>
#include <deal.II/grid/grid_tools.h>
#include <deal.II/grid/tria.h>

#include <gtest/gtest.h>

#include <cmath>

// Orders of convergence by manufactured solutions: the heat that a chosen temperature needs inside
// and on the surface is put in, and the chosen temperature must come out.
namespace overbend::tests
{
namespace
{
constexpr double film = 40, air = 290;

// T = 300 + amplitude times this polynomial or wave, with its gradient and second derivatives.
struct Chosen
{
  double value;
  solver::Vec3 gradient;
  std::array<solver::Vec3, 3> second;
};

Chosen wave(const solver::Vec3 &p)
{
  const double k[3] = {7, 9, 11}, at[3] = {k[0] * p[0] + 0.3, k[1] * p[1] - 0.5, k[2] * p[2] + 0.2};
  Chosen c{10, {}, {}};
  double s[3], d[3];
  for (unsigned i = 0; i < 3; ++i) {
    s[i] = std::sin(at[i]);
    d[i] = k[i] * std::cos(at[i]);
    c.value *= s[i];
  }
  for (unsigned i = 0; i < 3; ++i)
    for (unsigned j = 0; j < 3; ++j) {
      double g = 10, h = 10;
      for (unsigned m = 0; m < 3; ++m) {
        g *= m == i ? d[m] : s[m];
        h *= (m == i && m == j) ? -k[m] * k[m] * s[m] : (m == i || m == j) ? d[m] : s[m];
      }
      c.gradient[i] = g;
      c.second[i][j] = h;
    }
  return c;
}

Chosen parabola(const solver::Vec3 &p)
{
  Chosen c{};
  const double q[3] = {900, -400, 700};
  for (unsigned i = 0; i < 3; ++i) {
    c.value += q[i] * p[i] * p[i] + (20. + i) * p[i];
    c.gradient[i] = 2 * q[i] * p[i] + 20. + i;
    c.second[i][i] = 2 * q[i];
  }
  c.value += 300 * p[0] * p[1];
  c.gradient[0] += 300 * p[1];
  c.gradient[1] += 300 * p[0];
  c.second[0][1] = c.second[1][0] = 300;
  return c;
}

std::array<solver::Vec3, 3> tensor(const solver::PieceModel &piece)
{
  std::array<solver::Vec3, 3> k{};
  for (unsigned i = 0; i < 3; ++i)
    for (unsigned j = 0; j < 3; ++j)
      k[i][j] = (i == j) * piece.conductivity_across +
                (piece.conductivity_along - piece.conductivity_across) * piece.grain[0][i] *
                    piece.grain[0][j];
  return k;
}

// A cube of 0.1 m, run-out grain, n cells a side; bent inside and outside if `bend` is not 0.
solver::Model cube(unsigned n, double bend)
{
  mesh::NeckMesh mesh;
  mesh.triangulation = std::make_shared<dealii::Triangulation<3>>();
  dealii::Triangulation<3> &grid = *mesh.triangulation;
  dealii::GridGenerator::subdivided_hyper_cube(grid, n, 0, 0.1);
  dealii::GridTools::transform(
      [bend](const dealii::Point<3> &p) {
        const double u = 31 * p[0], v = 31 * p[1], w = 31 * p[2];
        return p + bend * dealii::Tensor<1, 3>({std::sin(v) * std::cos(w), std::sin(w + u) * 0.7,
                                                std::cos(u) * std::sin(v)});
      },
      grid);
  for (const auto &cell : grid.active_cell_iterators())
    cell->set_material_id(1);
  mesh.mapping = std::make_shared<dealii::MappingQCache<3>>(1);
  mesh.mapping->initialize(dealii::MappingQ<3>(1), grid);
  solver::Model model;
  model.space = solver::make_space(mesh);
  solver::PieceModel &piece = model.piece[1];
  piece.conductivity_along = 0.36;
  piece.conductivity_across = 0.16;
  piece.heat_capacity = 1e6;
  piece.grain = {solver::Vec3{0.8, 0.48, 0.36}, solver::Vec3{-0.6, 0.64, 0.48},
                 solver::Vec3{0, -0.6, 0.8}};
  return model;
}

solver::HeatSurroundings open_air()
{
  solver::HeatSurroundings surroundings;
  surroundings.film[0] = {film, air};
  return surroundings;
}

// Adds the heat for T = 300 + size * chosen(x), changing at `pace` per unit of the chosen shape.
void add_heat(const solver::Model &model, Chosen (*chosen)(const solver::Vec3 &), double size,
              double pace, std::vector<double> &load)
{
  const solver::Space &space = model.space;
  const auto k = tensor(model.piece[1]);
  std::array<std::vector<double>, 3> place;
  for (unsigned i = 0; i < 3; ++i) {
    std::vector<double> nodal;
    for (const auto &p : space.position)
      nodal.push_back(p[i]);
    place[i] = solver::at_points(space, nodal);
  }
  const solver::LineShapes &s = solver::line_shapes();
  for (std::size_t g = 0; g < space.jxw.size(); ++g) {
    const unsigned q = g % solver::points_per_cell;
    const Chosen c = chosen({place[0][g], place[1][g], place[2][g]});
    double heat = model.piece[1].heat_capacity * pace * c.value;
    for (unsigned i = 0; i < 3; ++i)
      for (unsigned j = 0; j < 3; ++j)
        heat -= k[i][j] * size * c.second[i][j];
    for (unsigned a = 0; a < solver::nodes_per_cell; ++a)
      load[space.cell_node[g / solver::points_per_cell][a]] +=
          heat * space.jxw[g] * s.value[q % 3][a % 3] * s.value[q / 3 % 3][a / 3 % 3] *
          s.value[q / 9][a / 9];
  }
  for (const auto &face : space.boundary.at(0))
    for (unsigned q = 0; q < solver::nodes_per_face; ++q) {
      const Chosen c = chosen(space.position[face.node[q]]);
      double flow = film * (300 + size * c.value - air);
      for (unsigned i = 0; i < 3; ++i)
        for (unsigned j = 0; j < 3; ++j)
          flow += face.normal[q][i] * k[i][j] * size * c.gradient[j];
      load[face.node[q]] += flow * face.weight[q];
    }
}

// L2 error of the steady temperature against the wave, relative to its amplitude.
double steady_error(unsigned n)
{
  const solver::Model model = cube(n, 2e-3);
  const solver::HeatSystem system(model, open_air());
  std::vector<double> T = system.load(0);
  add_heat(model, wave, 1, 0, T);
  solver::Factor factor;
  factor.factorise(system.conduction);
  factor.solve(T);
  const auto found = solver::at_points(model.space, T);
  std::array<std::vector<double>, 3> place;
  for (unsigned i = 0; i < 3; ++i) {
    std::vector<double> nodal;
    for (const auto &p : model.space.position)
      nodal.push_back(p[i]);
    place[i] = solver::at_points(model.space, nodal);
  }
  double sum = 0, volume = 0;
  for (std::size_t g = 0; g < found.size(); ++g) {
    sum += model.space.jxw[g] *
           std::pow(found[g] - 300 - wave({place[0][g], place[1][g], place[2][g]}).value, 2);
    volume += model.space.jxw[g];
  }
  return std::sqrt(sum / volume);
}

// Largest error at the end of one period with `n` equal steps; the mesh holds the shape exactly.
double error_in_time(const solver::Model &model, unsigned n)
{
  const double period = 4000, w = 2 * M_PI / period;
  solver::HeatSystem system(model, open_air());
  system.source = [&](double t, std::vector<double> &load) {
    add_heat(model, parabola, std::sin(w * t + 0.4), w * std::cos(w * t + 0.4), load);
  };
  const auto exact = [&](double t) {
    std::vector<double> T;
    for (const auto &p : model.space.position)
      T.push_back(300 + std::sin(w * t + 0.4) * parabola(p).value);
    return T;
  };
  solver::HeatStepper stepper(system, exact(0), 0);
  for (unsigned i = 0; i < n; ++i) {
    const double dt = period / n;
    stepper.accept(stepper.try_step(dt), dt);
  }
  double worst = 0;
  const auto end = exact(period);
  for (unsigned i = 0; i < end.size(); ++i)
    worst = std::max(worst, std::abs(stepper.temperature()[i] - end[i]));
  return worst;
}
} // namespace

TEST(HeatOrder, ThirdOrderInSpaceOnBentCellsWithSlopingGrain)
{
  const double e4 = steady_error(4), e8 = steady_error(8), e12 = steady_error(12);
  const double order = std::log2(e4 / e8), later = std::log(e8 / e12) / std::log(1.5);
  report("Manufactured heat, space", "order of the L2 error, 8 to 12 cells",
         "theory of quadratic elements", 3, later, 0.2);
  std::printf("errors %g %g %g K, orders %.3f %.3f\n", e4, e8, e12, order, later);
  EXPECT_NEAR(order, 3, 0.3);
  EXPECT_NEAR(later, 3, 0.2);
}

TEST(HeatOrder, SecondOrderInTimeWithChangingHeat)
{
  const solver::Model model = cube(3, 0);
  const double e[4] = {error_in_time(model, 8), error_in_time(model, 16), error_in_time(model, 32),
                       error_in_time(model, 64)};
  const double order = std::log2(e[2] / e[3]);
  report("Manufactured heat, time", "order of the largest error, 32 to 64 steps",
         "Hosea & Shampine 1996 (from memory)", 2, order, 0.15);
  std::printf("errors %g %g %g %g K, orders %.3f %.3f %.3f\n", e[0], e[1], e[2], e[3],
              std::log2(e[0] / e[1]), std::log2(e[1] / e[2]), order);
  EXPECT_NEAR(order, 2, 0.15);
}

// Constant gradient in every direction: exact to round-off on any mesh.
TEST(HeatOrder, ConstantFluxThroughBentCellsIsExact)
{
  const solver::Model model = cube(3, 3e-3);
  const solver::HeatSystem system(model, open_air());
  const auto k = tensor(model.piece[1]);
  const solver::Vec3 slope{30, -20, 50};
  std::vector<double> exact;
  for (const auto &p : model.space.position)
    exact.push_back(300 + slope[0] * p[0] + slope[1] * p[1] + slope[2] * p[2]);
  // No heat gathers inside.
  std::vector<double> balance(exact.size(), 0.);
  system.conduction.add_times(exact, balance);
  double inside = 0, scale = 0;
  std::vector<bool> surface(exact.size(), false);
  for (const auto &face : model.space.boundary.at(0))
    for (const unsigned n : face.node)
      surface[n] = true;
  for (unsigned n = 0; n < exact.size(); ++n) {
    scale = std::max(scale, std::abs(balance[n]));
    if (!surface[n])
      inside = std::max(inside, std::abs(balance[n]));
  }
  EXPECT_LT(inside, 1e-12 * scale);
  // The flux itself: its energy is slope . k slope times the volume.
  double energy = 0, expected = 0, volume = 0;
  solver::HeatSystem sealed(model, {});
  std::vector<double> flow(exact.size(), 0.);
  sealed.conduction.add_times(exact, flow);
  for (unsigned n = 0; n < exact.size(); ++n)
    energy += flow[n] * exact[n];
  for (const double v : model.space.jxw)
    volume += v;
  for (unsigned i = 0; i < 3; ++i)
    for (unsigned j = 0; j < 3; ++j)
      expected += slope[i] * k[i][j] * slope[j] * volume;
  EXPECT_NEAR(energy / expected, 1, 1e-10);
}
} // namespace overbend::tests
