// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/report.h"
#include "tests/verification/beam_model.h"

#include <gtest/gtest.h>

#include <cmath>

// Springs of the bench: a beam on a pad that can only push, cords that can go slack, forces spread
// over nodes.
namespace overbend::tests
{
namespace
{
constexpr double EI = 600, foundation = 2e7, force = 200; // N m^2, N/m^2, N
constexpr double width = 0.05, modulus = 13.86e9;
const double beta = std::pow(foundation / 4 / EI, 0.25); // 1/m

// A beam that bends without shear, pressed up against a pad on its top.
Beam make_beam(double length, unsigned cells)
{
  mesh::LayeredBeam shape;
  shape.length = length;
  shape.width = width;
  shape.board_thickness = 0;
  shape.shaft_depth = std::cbrt(12 * EI / modulus / width);
  shape.cells_along = cells;
  shape.cells_shaft = 1;
  return {shape, {elastic(modulus, modulus, 1e13), elastic(modulus, modulus, 1e13), {}}};
}

// One spring for each node of the top, of the area of that node.
std::vector<solver::Spring> pad(const Beam &beam, bool one_sided)
{
  std::vector<solver::Spring> springs;
  for (const auto &node : solver::face_nodes(beam.model.space, unsigned(mesh::Face::board_top))) {
    solver::Spring spring;
    spring.name = "pad";
    spring.row = {{3 * node.node + 2, 1.}};
    spring.stiffness = foundation / width * node.weight;
    spring.one_sided = one_sided;
    springs.push_back(spring);
  }
  return springs;
}

// Pressed up in the middle; touching all over as a first guess.
void press_up(const Beam &beam, TimeRun &run)
{
  solver::add_times(beam.lift(beam.shape.length / 2), force, run.load);
  for (unsigned n = 0; n < beam.model.space.n_nodes; ++n)
    run.state.displacement[3 * n + 2] = 1e-5;
  run.step(run.temperature, 0);
}

// Mean bending moment over the cells from the middle to `reach`.
double mean_moment(const Beam &beam, const solver::MechanicsState &state, double reach)
{
  const solver::Space &space = beam.model.space;
  double sum = 0;
  for (unsigned c = 0; c < space.n_cells; ++c) {
    const double x = space.position[space.cell_node[c][13]][0] - beam.shape.length / 2;
    if (x < 0 || x > reach)
      continue;
    for (std::size_t q = 0; q < solver::points_per_cell; ++q) {
      // Gauss points of the one cell through the depth.
      const double z = (double(q / 9) - 1) * std::sqrt(0.6) * beam.shape.shaft_depth / 2;
      const std::size_t p = c * solver::points_per_cell + q;
      sum += state.wood[p].stress[0] * z * space.jxw[p];
    }
  }
  return sum / reach;
}
} // namespace

// Hetenyi 1946 (from memory): a long beam under a force, w0 = P beta/2k, M0 = P/4 beta.
TEST(Pad, LongBeamOnAPadFollowsWinkler)
{
  const Beam beam = make_beam(1.2, 120);
  TimeRun run(beam.model, beam.held());
  run.springs = pad(beam, false);
  press_up(beam, run);
  const double w0 = 1e3 * solver::evaluate(beam.lift(0.6), run.state.displacement);
  report("Beam on a pad", "displacement under the force, mm", "Hetenyi 1946 (from memory)",
         0.047772, w0, 0.02 * 0.047772);
  EXPECT_NEAR(w0 / 0.047772, 1, 0.02);
  // M = P/(4 beta) exp(-beta x) (cos beta x - sin beta x), mean over the first 10 mm.
  const double reach = 0.01;
  const double shape = std::exp(-beta * reach) * std::sin(beta * reach) / beta / reach;
  const double M0 = std::abs(mean_moment(beam, run.state, reach)) / shape;
  report("Beam on a pad", "moment under the force, N m", "Hetenyi 1946 (from memory)", 5.2332, M0,
         0.02 * 5.2332);
  EXPECT_NEAR(M0 / 5.2332, 1, 0.02);
}

// On a pad that only pushes, the contact ends where w = 0 without moment or shear: a free beam of
// length pi/beta (Hetenyi's finite beam), w0 = P beta/2k (cosh pi + 1)/sinh pi. The rest lifts off.
TEST(Pad, BeamLiftsOffWhereThePadCannotPull)
{
  const Beam beam = make_beam(0.8, 160);
  TimeRun run(beam.model, beam.held());
  run.springs = pad(beam, true);
  press_up(beam, run);
  const double pi = std::acos(-1.);
  const double expected = 1e3 * force * beta / 2 / foundation * (std::cosh(pi) + 1) / std::sinh(pi);
  const double w0 = 1e3 * solver::evaluate(beam.lift(0.4), run.state.displacement);
  report("Beam on a pad that only pushes", "displacement under the force, mm",
         "Hetenyi 1946 (from memory), contact length pi/beta", expected, w0, 0.02 * expected);
  EXPECT_NEAR(w0 / expected, 1, 0.02);

  double reach = 0, total = 0;
  for (std::size_t s = 0; s < run.springs.size(); ++s) {
    const double push = solver::force(run.springs[s], run.state.displacement);
    EXPECT_GE(push, 0);
    EXPECT_EQ(push > 0, run.mechanics.closed_springs()[s] != 0);
    total += push;
    const unsigned node = run.springs[s].row[0].first / 3;
    if (push > 0)
      reach = std::max(reach, std::abs(beam.model.space.position[node][0] - 0.4));
  }
  report("Beam on a pad that only pushes", "half length of contact, m",
         "Hetenyi 1946 (from memory), contact length pi/beta", pi / 2 / beta, reach, 0.005);
  EXPECT_NEAR(reach, pi / 2 / beta, 0.005); // a cell
  EXPECT_NEAR(total, force, 1e-5 * force);
}

namespace
{
// A cord that pulls the middle of a beam on two supports up; slack by `slack` at the start.
solver::Spring cord(const Beam &beam, double slack)
{
  solver::Spring spring;
  spring.name = "cord";
  for (const auto &[unknown, share] : beam.lift(beam.shape.length / 2))
    spring.row.emplace_back(unknown, -share);
  spring.stiffness = 3e4;
  spring.offset = -slack;
  spring.one_sided = true;
  return spring;
}
} // namespace

TEST(Cord, SlackItHasNoForceAndTautItSharesTheLoad)
{
  const Beam beam = make_beam(0.4, 16);
  std::vector<double> load = beam.no_load();
  solver::add_times(beam.lift(0.2), -50, load);
  const double free_sag = -solver::evaluate(beam.lift(0.2), beam.solve(load));
  const double stiffness = 50 / free_sag;

  for (const double slack : {2 * free_sag, 0.5 * free_sag, -0.3 * free_sag}) {
    TimeRun run(beam);
    run.springs.push_back(cord(beam, slack));
    run.load = load;
    run.step(run.temperature, 0);
    const double pull = solver::force(run.springs.back(), run.state.displacement);
    // Two springs side by side, one of them with slack.
    const double sag = slack > free_sag ? free_sag : (50 + 3e4 * slack) / (stiffness + 3e4);
    const double expected = slack > free_sag ? 0 : 3e4 * (sag - slack);
    report("Cord with slack " + std::to_string(slack / free_sag) + " of the free sag", "force, N",
           "springs side by side", expected, pull, 1e-5);
    EXPECT_NEAR(pull, expected, 1e-5);
    EXPECT_EQ(run.mechanics.closed_springs().back() != 0, expected > 0);
    if (slack > free_sag) {
      EXPECT_EQ(pull, 0);
    }
  }
}

// Resultants of spread forces and moments; and the rows as mean displacement and mean rotation.
TEST(Spread, ForceAndMomentAreKept)
{
  const Beam beam = make_beam(0.4, 16);
  const solver::Space &space = beam.model.space;
  const auto nodes = nodes_where(space, [](const solver::Vec3 &p) { return p[0] > 0.37; });
  const solver::Vec3 point{0.41, 0.013, -0.004}, direction{0.2, -0.5, 0.9};
  const auto resultant = [&](const solver::Row &row) {
    std::array<double, 6> sum{};
    for (const auto &[unknown, f] : row) {
      const solver::Vec3 &p = space.position[unknown / 3];
      const unsigned i = unknown % 3, j = (i + 1) % 3, k = (i + 2) % 3;
      sum[i] += f;
      sum[3 + k] -= p[j] * f; // r x f of a force along i
      sum[3 + j] += p[k] * f;
    }
    return sum;
  };
  const auto spread = resultant(solver::spread_force(space, nodes, point, direction));
  for (unsigned i = 0; i < 3; ++i) {
    const unsigned j = (i + 1) % 3, k = (i + 2) % 3;
    EXPECT_NEAR(spread[i], direction[i], 1e-12);
    EXPECT_NEAR(spread[3 + i], point[j] * direction[k] - point[k] * direction[j], 1e-12);
  }
  const solver::Vec3 axis{0.6, 0, 0.8};
  const solver::Row row = solver::spread_moment(space, nodes, axis);
  const auto moment = resultant(row);
  for (unsigned i = 0; i < 3; ++i) {
    EXPECT_NEAR(moment[i], 0, 1e-12);
    EXPECT_NEAR(moment[3 + i], axis[i], 1e-12);
  }
  // A rigid rotation of 1e-3 about the axis reads 1e-3.
  std::vector<double> u = beam.no_load();
  for (unsigned n = 0; n < space.n_nodes; ++n)
    for (unsigned i = 0; i < 3; ++i) {
      const unsigned j = (i + 1) % 3, k = (i + 2) % 3;
      u[3 * n + i] =
          1e-3 * (axis[j] * space.position[n][k] - axis[k] * space.position[n][j]) + 2e-3;
    }
  report("Spread moment", "rotation read from a rigid turn of 1e-3", "kinematics", 1e-3,
         solver::evaluate(row, u), 1e-14);
  EXPECT_NEAR(solver::evaluate(row, u), 1e-3, 1e-14);
}
} // namespace overbend::tests
