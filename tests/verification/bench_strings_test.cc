// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/report.h"
#include "tests/verification/bench_beam.h"

#include <gtest/gtest.h>

#include <cmath>

// Strings on a straight neck: a beam-column whose pull keeps to the line from nut to bridge.
namespace overbend::tests
{
namespace
{
constexpr double modulus = 13.86e9, width = 0.05, length = 0.4, scale = 2 * length;
constexpr double string_height = 0.004;

struct Strung
{
  explicit Strung(double depth)
      : beam(shape(depth), {rigid_in_shear(modulus), rigid_in_shear(modulus), {}},
             [](cases::Case &c) {
               c.strings.height_at_nut = c.strings.height_at_join = string_height;
             }),
        pull(solver::make_string_pull(beam.c, beam.c.strings, beam.beam.model, materials::tables(),
                                      0)),
        EI(modulus * width * std::pow(depth, 3) / 12), arm(string_height + depth / 2)
  {}

  static mesh::LayeredBeam shape(double depth)
  {
    mesh::LayeredBeam s;
    s.board_thickness = 0;
    s.width = width;
    s.shaft_depth = depth;
    s.length = length;
    s.cells_along = 32;
    return s;
  }

  // Rise of the section at x by bending theory. y is the height of the string over the middle of
  // the section: EI w'' = T y, y = e + w0 (1 - x/S) - w with w0 the rise of the nut and S the scale
  // length, so y'' = -(T/EI) y.
  double rise(double x) const
  {
    const double k = std::sqrt(pull.total / EI), kL = k * length;
    const double give = beam.joint_give() * pull.total; // slope at the body is -give * y(L)
    // Unknown: B and w0 of y = e cos kx + B sin kx.
    //   y(L) = e + w0 (1 - L/S);  y'(L) = -w0/S + give y(L).
    const double c = std::cos(kL), s = std::sin(kL), share = 1 - length / scale;
    const double w0 = arm * (k - k * c + give * s) / (k * c * share + s / scale - give * s * share);
    const double B = (arm + w0 * share - arm * c) / s;
    return arm + w0 * (1 - x / scale) - arm * std::cos(k * x) - B * std::sin(k * x);
  }
  // The same with the strings' pull as it is on the straight neck.
  double rise_of_dead_load(double x) const
  {
    const double far = length - x;
    return pull.total * arm * (far * far / (2 * EI) + beam.joint_give() * far);
  }

  BenchBeam beam;
  solver::StringPull pull;
  double EI, arm;
};
} // namespace

TEST(Strings, FollowTheBowAsInABeamColumn)
{
  for (const double depth : {0.0218, 0.014}) {
    Strung neck(depth);
    solver::BenchSetup setup = bare_bench();
    setup.strings = &neck.pull;
    const auto strung = neck.beam.at_once(setup, {});
    const auto dead = neck.beam.at_once(bare_bench(), {}, neck.pull.load);
    const std::string what = "Strings of " + std::to_string(int(neck.pull.total)) +
                             " N along a beam of EI " + std::to_string(int(neck.EI)) + " N m^2";
    for (const double x : {0.05, 0.2}) {
      const solver::Row lift = neck.beam.beam.lift(x);
      const double first = neck.rise_of_dead_load(x), second = neck.rise(x) - first;
      const double got_first = solver::evaluate(lift, dead),
                   got_second = solver::evaluate(lift, strung) - got_first;
      const std::string where = " at " + std::to_string(int(1e3 * x + 0.5)) + " mm, mm";
      report(what, "rise" + where, "bending theory", 1e3 * first, 1e3 * got_first,
             0.01 * 1e3 * first);
      EXPECT_NEAR(got_first / first, 1, 0.01);
      report(what, "more of it as the pull follows the bow" + where, "beam-column (own algebra)",
             1e3 * second, 1e3 * got_second, 0.03 * 1e3 * std::abs(second));
      EXPECT_NEAR(got_second / second, 1, 0.03);
    }
  }
}

// A load on the headstock of the strung neck: the strings' line turns with the nut and holds it,
// the thrust along the neck softens it. With T = k^2 EI, by the potential of the strings,
//   EI w'''' + T w'' = 0,  w(L) = 0,  w'(L) = -g M(L),  M(0) = 0,  EI w''' + T w' + T w/S = P at 0,
// so w = C (-1 + c (L - x) + cos k(L - x) - cot kL sin k(L - x)), c = k cot kL - g T.
TEST(Strings, MakeTheNeckAsSoftAsAColumnWhoseLineTurnsWithTheNut)
{
  Strung neck(0.0218);
  const solver::Row lift = neck.beam.beam.lift(0);
  solver::BenchSetup setup = bare_bench();
  setup.strings = &neck.pull;
  std::array<double, 3> nut{};
  for (const unsigned loads : {0U, 1U, 2U}) {
    std::vector<double> load = neck.beam.beam.no_load();
    solver::add_times(lift, -30. * loads, load);
    nut[loads] = solver::evaluate(lift, neck.beam.at_once(setup, {}, load));
  }
  const double T = neck.pull.total, k = std::sqrt(T / neck.EI);
  const double c = k / std::tan(k * length) - neck.beam.joint_give() * T;
  const double at_nut = c * length - 1;
  const double expected = -30 * at_nut / (T * (at_nut / scale - c)), got = nut[1] - nut[0];
  report("Strung neck under 30 N more on its headstock", "way of the headstock, mm",
         "beam-column (own algebra)", 1e3 * expected, 1e3 * got, 0.005 * 1e3 * std::abs(expected));
  EXPECT_NEAR(got / expected, 1, 0.005);
  EXPECT_NEAR((nut[2] - nut[1]) / got, 1, 1e-4);
  // Not the bare cantilever.
  const double bare =
      -30 * (std::pow(length, 3) / (3 * neck.EI) + length * length * neck.beam.joint_give());
  EXPECT_GT(std::abs(got / bare - 1), 0.02);
}
} // namespace overbend::tests
