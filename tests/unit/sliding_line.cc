// SPDX-License-Identifier: GPL-3.0-or-later
// Beam of two layers on a line that is soft in places, against closed forms.
#include "solver/plan/sliding_line.h"

#include "cases/read/read_case.h"
#include "solver/plan/share_needed.h"

#include <gtest/gtest.h>

#include <cmath>

using namespace overbend;
using solver::LineStiffness;
using solver::ReadOver;
using solver::SlippingBeam;

namespace
{
constexpr double length = 0.46;
const SlippingBeam beam;
const ReadOver whole{0, length / 2, length};

double even(double)
{
  return 1;
}

LineStiffness uniform(double modulus)
{
  LineStiffness line;
  line.to = length;
  line.modulus.assign(60, modulus);
  return line;
}

double share(const LineStiffness &line, const ReadOver &over = whole)
{
  return solver::share_of_slip(beam, line, even, over);
}

// Newmark, Siess and Viest 1951 (from memory), constant moment and free ends:
//   kept = 1 - (L^2/8)/(L^2/8 + (1/rho - 1)(1 - sech(aL/2))/a^2)
double newmark(double modulus, double L = length)
{
  const double a = std::sqrt(modulus * beam.width / beam.glue_thickness * beam.r * beam.r /
                             (beam.rho * (1 - beam.rho) * beam.EI));
  const double slip = (1 - 1 / std::cosh(a * L / 2)) / (a * a), bonded = L * L / 8;
  return (1 - bonded / (bonded + (1 / beam.rho - 1) * slip)) / (1 - beam.rho);
}

cases::Case electric(const std::string &more)
{
  return cases::parse_case("preset = \"electric\"\n" + more, "test.toml");
}
} // namespace

TEST(SlidingLine, AlikeAllAlongItIsThePublishedBeam)
{
  for (const double modulus : {1e7, 1e6, 3e5, 1e5, 3e4, 1e4})
    EXPECT_NEAR(share(uniform(modulus)), newmark(modulus), 2e-3) << modulus;
}

TEST(SlidingLine, VerySoftItKeepsAllAndHardNothing)
{
  EXPECT_NEAR(share(uniform(1)), 1, 1e-3);
  EXPECT_NEAR(share(uniform(1e11)), 0, 1e-3);
}

// Locked at one end, it is half of a line twice as long that is free at both: read over its whole
// length, as far as the moment is even. Symmetry.
TEST(SlidingLine, LockedAtOneEndItIsHalfOfALineTwiceAsLong)
{
  LineStiffness twice = uniform(1e5);
  twice.to = 2 * length;
  twice.modulus.assign(120, 1e5);
  LineStiffness half = uniform(1e5);
  half.locked_at_body = true;
  EXPECT_NEAR(share(half), share(twice, whole), 2e-3);
  EXPECT_LT(share(half), share(uniform(1e5)));
}

// Warm in the middle and cold at its ends it keeps next to nothing; cold in the middle and soft at
// an end it keeps a part of what it would.
TEST(SlidingLine, ColdEndsLockASoftMiddle)
{
  LineStiffness line = uniform(1e4);
  for (unsigned k = 0; k < 6; ++k)
    line.modulus[k] = line.modulus[59 - k] = 1e9;
  EXPECT_LT(share(line), 0.1);
  LineStiffness one_end = uniform(1e4);
  for (unsigned k = 0; k < 6; ++k)
    one_end.modulus[59 - k] = 1e9;
  EXPECT_GT(share(one_end), 0.4);
}

TEST(ClampMoment, IsOneOverTheCradleAndNothingBeyondThePulls)
{
  const cases::Case c = electric("[found]\nbow = \"1 mm\"\n");
  const auto m = solver::moment_of_clamp(c);
  EXPECT_NEAR(m(c.bench.cradle_x), 1, 1e-12);
  EXPECT_EQ(m(-0.5), 0);
  EXPECT_EQ(m(2), 0);
  EXPECT_NEAR(m(c.bench.cradle_x / 2 - (c.tuners.first_post + c.tuners.last_post) / 4), 0.5, 1e-12);
}

// By hand, with one pass left: 1.0 mm, strings lift 0.2 mm, 0.2 mm wanted, at most 3 mm past
// straight: 1 - k (1 + 3) = 0.
TEST(ShareNeeded, OfOnePassByHand)
{
  const cases::Case c = electric("[found]\nbow = \"1.5 mm\"\n[first_pass]\noverbend = \"-1 mm\"\n"
                                 "bow = \"1 mm\"\n[target]\nrelief = \"0.2 mm\"\n");
  EXPECT_NEAR(solver::share_needed(c, materials::tables().limits, 0.2e-3, 0.4), 0.25, 1e-6);
}

// With two passes, the first held back by a line that keeps all it can: w = 1.2/0.6 = 2 mm;
// r1 = 1 - 2 k;  r1 - k (r1 + 3) = 0:  2 k^2 - 6 k + 1 = 0,  k = (6 - sqrt(28))/4.
TEST(ShareNeeded, OfTwoPassesByHand)
{
  const cases::Case c = electric(
      "[found]\nbow = \"1 mm\"\n[rod]\nstate = \"broken\"\n[target]\nrelief = \"0.2 mm\"\n");
  EXPECT_NEAR(solver::share_needed(c, materials::tables().limits, 0.2e-3, 0.4),
              (6 - std::sqrt(28.)) / 4, 1e-6);
}

TEST(ShareNeeded, IsNoneForANeckAtItsEnd)
{
  const cases::Case c = electric("[found]\nbow = \"0 mm\"\n[target]\nrelief = \"0.2 mm\"\n");
  EXPECT_EQ(solver::share_needed(c, materials::tables().limits, 0.2e-3, 0.4), 0);
}
