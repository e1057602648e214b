// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/report.h"
#include "tests/verification/grain_strip.h"

#include <gtest/gtest.h>

#include <cmath>
#include <vector>

// Run-out makes shear from heat and pull, and twist from a bow: a strip cut off-axis against its
// closed forms (grain_strip.h). The fields are at most quadratic in the place, so the elements hold
// them exactly and the tolerance is that of the equation solver.
namespace overbend::tests
{
namespace
{
constexpr double pi = 3.14159265358979323846, degree = pi / 180;
constexpr double length = 0.2, width = 0.03, thickness = 0.01;
constexpr double exact = 1e-6;

Beam off_axis_strip(double angle, bool flat_sawn = false)
{
  Beam beam = strip(length, width, thickness, 8, 2);
  set_grain(beam, [&](mesh::Piece, double) { return run_out_across(angle, flat_sawn); });
  return beam;
}

void expect(const std::string &what, const std::string &quantity, const std::string &source,
            double expected, double got, double relative)
{
  EXPECT_NEAR(got, expected, relative * std::abs(expected)) << what << ": " << quantity;
  report(what, quantity, source, expected, got, relative * std::abs(expected));
}
} // namespace

// Source: the strain tensor turned by the angle [C]: gamma = 2 (alpha_L - alpha_R,T) sin cos dT.
TEST(RunOut, AFreeStripShearsWhenItIsWarmed)
{
  constexpr double warming = 30;
  for (const bool flat_sawn : {false, true}) {
    const Beam beam = off_axis_strip(6 * degree, flat_sawn);
    const auto u = free_displacement(beam, warming, beam.no_load());
    const double across = flat_sawn ? 40e-6 : 31e-6;
    const double expected = 2 * (4e-6 - across) * std::sin(6 * degree) * std::cos(6 * degree);
    expect("Run-out of 6 deg, warmed by 30 K", flat_sawn ? "shear, flat-sawn" : "shear, quarter",
           "turned strain tensor [C]", expected * warming, shear(beam, u, 0, length), exact);
  }
}

// Source: the same turned tensor, with the shrinkage from 12 to 7 % moisture: along 4 % of 0.0023
// and 1 % of 0.0179; across, Wood Handbook Eq. 4-9, S = S0 (1 - m/0.30) of the green size.
TEST(RunOut, AFreeStripShearsWhenItDries)
{
  const double angle = 6 * degree, along = -(0.04 * 0.0023 + 0.01 * 0.0179);
  for (const bool flat_sawn : {false, true}) {
    Beam beam = off_axis_strip(angle, flat_sawn);
    const auto u = dried_displacement(beam, 0.12, 0.07);
    const double green = flat_sawn ? 0.099 : 0.048, built = green * (1 - 0.12 / 0.30);
    const double across = -(green * (1 - 0.07 / 0.30) - built) / (1 - built);
    expect("Run-out of 6 deg, dried from 12 to 7 %",
           flat_sawn ? "shear, flat-sawn" : "shear, quarter", "turned strain tensor [C]",
           2 * (along - across) * std::sin(angle) * std::cos(angle), shear(beam, u, 0, length),
           exact);
  }
}

// Source: Timoshenko 1925, two equal layers of one stiffness: curvature 3/2 of the difference of
// the free strains over the whole depth. Straight grain: only the factor on the swelling along the
// grain makes the bow. The formula leaves out the sides' curling, some 2 % here.
TEST(UnevenSwelling, BowsAStripLikeTwoMetals)
{
  constexpr double layer = 5e-3;
  Beam beam = two_layers(length, width, layer, 8, 2);
  for (unsigned c = 0; c < beam.model.space.n_cells; ++c)
    beam.model.swelling_along.push_back(
        beam.model.space.piece[c] == unsigned(mesh::Piece::board) ? 1.5 : 0.5);
  const auto u = dried_displacement(beam, 0.12, 0.07);
  const auto lift = [&](double x) { return u[3 * beam.node(x, 0, 0) + 2]; };
  const double bow = (lift(0) + lift(length)) / 2 - lift(length / 2);
  const double difference = 0.04 * 0.0023 + 0.01 * 0.0179; // the board shrinks more
  const double expected = 1.5 * difference / (2 * layer) * length * length / 8;
  expect("Board that shrinks more along the grain, 12 to 7 %", "bow, m", "Timoshenko 1925",
         expected, bow, 0.03);
}

// Source: Lekhnitskii 1963 [M], derived in grain_strip.h.
TEST(RunOut, AStripUnderPullShears)
{
  const Beam beam = off_axis_strip(-8 * degree);
  const double pull = 5e6;
  const auto u = free_displacement(beam, 0, end_load(beam, [&](double, double) { return pull; }));
  const OffAxis s = off_axis(warm_maple(), -8 * degree);
  expect("Run-out of -8 deg under 5 MPa of pull", "shear", "Lekhnitskii 1963 [M]", s.xs * pull,
         shear(beam, u, 0, length), exact);
  const double stretch =
      u[3 * beam.node(length, 0, -thickness / 2)] - u[3 * beam.node(0, 0, -thickness / 2)];
  expect("Run-out of -8 deg under 5 MPa of pull", "stretch, m", "Lekhnitskii 1963 [M]",
         s.xx * pull * length, stretch, exact);
}

// Source: Lekhnitskii 1963 [M], derived in grain_strip.h: twist a length of S_xs a/2.
TEST(RunOut, AStripThatIsBowedTwists)
{
  for (const bool flat_sawn : {false, true})
    for (const double degrees : {3., 8., -20.}) {
      const Beam beam = off_axis_strip(degrees * degree, flat_sawn);
      const double slope = 5e6 / (thickness / 2); // 5 MPa at the surface
      const auto u =
          free_displacement(beam, 0, end_load(beam, [&](double, double z) { return slope * z; }));
      const OffAxis s = off_axis(warm_maple(), degrees * degree, flat_sawn);
      expect("Off-axis strip bowed by 5 MPa at its surface",
             std::to_string(int(degrees)) + (flat_sawn ? " deg, flat-sawn" : " deg, quarter") +
                 ": twist over 0.2 m, rad",
             "Lekhnitskii 1963 [M]", -s.xs * slope * length / 2,
             turn(beam, u, length) - turn(beam, u, 0), exact);
    }
}

// The same for run-out in the depth: a bow shears the section only, a bend sideways twists. By the
// same derivation with y and z exchanged (an odd exchange of axes turns the sign of a rotation).
TEST(RunOut, InTheDepthTwistsWhenBentSidewaysAndNotWhenBowed)
{
  Beam beam = strip(length, width, thickness, 8, 2);
  const double angle = 8 * degree;
  set_grain(beam, [&](mesh::Piece, double) { return cases::Grain{0, 0, std::tan(angle)}; });
  const double slope = 5e6 / (width / 2);
  const auto bent =
      free_displacement(beam, 0, end_load(beam, [&](double y, double) { return slope * y; }));
  const OffAxis s = off_axis(warm_maple(), angle); // R lies in the plane of depth
  expect("Run-out of 8 deg in the depth, bent sideways", "twist over 0.2 m, rad",
         "Lekhnitskii 1963 [M]", s.xs * slope * length / 2,
         turn(beam, bent, length) - turn(beam, bent, 0), exact);
  const auto bowed =
      free_displacement(beam, 0, end_load(beam, [&](double, double z) { return slope * z; }));
  EXPECT_NEAR(turn(beam, bowed, length) - turn(beam, bowed, 0), 0, 1e-9);
}

// Source: lamination theory [M] (grain_strip.h has the compliances). Two layers of opposite run-out
// want to shear opposite ways when warmed, and twist like a pair of cards. The theory is for a wide
// thin plate; at free edges it is wrong over about one thickness, 2 of 80 mm here.
TEST(RunOut, TwoLayersOfOppositeRunOutTwistWhenWarmed)
{
  constexpr double layer = 1e-3, wide = 0.08, warming = 30, angle = 6 * degree;
  Beam beam = two_layers(0.16, wide, layer, 12, 12);
  set_grain(beam, [&](mesh::Piece piece, double) {
    return run_out_across(piece == mesh::Piece::board ? angle : -angle);
  });
  const auto u = free_displacement(beam, warming, beam.no_load());
  const double x0 = beam.shape.length / 4, x1 = 3 * x0;
  const double rate = (turn(beam, u, x1) - turn(beam, u, x0)) / (x1 - x0);
  expect("Two layers of 1 mm, run-out +6 and -6 deg, warmed by 30 K", "twist a length, rad/m",
         "lamination theory [M]", angle_ply_twist(warm_maple(), angle, layer, warming), rate, 0.03);
}

// Source: the same closed form, with a slope that changes along the strip: the twist adds up,
// phi = -a/2 int S_xs(theta(x)) dx, if the change is slow against the width (here 12 deg over seven
// widths; that is good to about 0.1 %, whatever the cells). One frame a cell is a midpoint rule:
// four cells must already agree with sixteen to 0.05 %.
TEST(RunOut, ThatChangesAlongTheStripAddsUp)
{
  const double from = -2 * degree, to = 10 * degree, slope = 5e6 / (thickness / 2);
  double sum = 0;
  constexpr unsigned pieces = 2000;
  const auto angle_at = [&](double x) {
    return std::atan(std::tan(from) + (std::tan(to) - std::tan(from)) * x / length);
  };
  for (unsigned i = 0; i < pieces; ++i)
    sum += off_axis(warm_maple(), angle_at(length * (i + 0.5) / pieces)).xs / pieces;
  const double expected = -sum * slope * length / 2;
  std::vector<double> twists;
  for (const unsigned cells : {4u, 16u}) {
    Beam beam = strip(length, width, thickness, cells, 2);
    set_grain(beam, [&](mesh::Piece, double x) { return run_out_across(angle_at(x)); });
    const auto u =
        free_displacement(beam, 0, end_load(beam, [&](double, double z) { return slope * z; }));
    twists.push_back(turn(beam, u, length) - turn(beam, u, 0));
    expect("Run-out from -2 to 10 deg along a bowed strip",
           std::to_string(cells) + " cells: twist over 0.2 m, rad", "Lekhnitskii 1963 [M], summed",
           expected, twists.back(), 0.01);
  }
  expect("Run-out from -2 to 10 deg along a bowed strip", "twist of 4 cells, rad",
         "the same by 16 cells", twists[1], twists[0], 5e-4);
}

// The mirror image of any grain mirrors the answer: ring angle and run-out across change sign.
TEST(RunOut, TheMirroredGrainMirrorsTheTwist)
{
  const auto twist_of = [](double side) {
    Beam beam = two_layers(length, width, 5e-3, 8, 4);
    set_grain(beam, [&](mesh::Piece piece, double x) -> cases::Grain {
      const double along = x / length;
      if (piece == mesh::Piece::board)
        return {side * (1.4 - 0.6 * along), side * 0.05, 0.02 * along};
      return {side * (0.3 + 0.5 * along), side * (0.1 - 0.15 * along), -0.04};
    });
    const auto load = end_load(beam, [](double, double z) { return 1e9 * z; });
    const auto u = free_displacement(beam, 25, load);
    return turn(beam, u, length) - turn(beam, u, 0);
  };
  const double twist = twist_of(1), image = twist_of(-1);
  EXPECT_GT(std::abs(twist), 1e-4);
  EXPECT_NEAR(image, -twist, 1e-8 * std::abs(twist));
  report("Mirrored grain that changes along the strip", "twist, rad", "symmetry", -twist, image,
         1e-8 * std::abs(twist));
}

// A frame for each cell that is the piece's own changes nothing.
TEST(RunOut, OneFrameForAllCellsIsTheFrameOfThePiece)
{
  Beam by_cell = off_axis_strip(5 * degree), by_piece = by_cell;
  for (solver::PieceModel &piece : by_piece.model.piece)
    piece.grain = by_cell.model.cell_grain.front();
  by_piece.model.cell_grain.clear();
  const auto load = end_load(by_cell, [](double, double z) { return 1e9 * z; });
  EXPECT_EQ(free_displacement(by_cell, 20, load), free_displacement(by_piece, 20, load));
}
} // namespace overbend::tests
