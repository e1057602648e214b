// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/law/damp_point.h"

#include <random>
#include <vector>

// Mechano-sorptive creep and first-drying set at one point.
namespace overbend::tests
{
// Source: Toratti 1992 (from memory), closed form eps = J_inf (1 - exp(-c sum|dm|)) sigma for a
// stress held along the grain, with J_inf = 0.45 J_0 and 1/c = 26 % (woods.toml says why); and his
// own numbers, 0.7 and 2.5, at the start: the same slope.
TEST(MechanoSorption, AlongTheGrainFollowsTorattisClosedForm)
{
  const materials::Wood wood = only_mechano_sorptive();
  DampPoint point(wood);
  const double stress = 10 * MPa, elastic = stress / wood.E_L;
  point.load({stress, 0, 0, 0, 0, 0}, 0.10);
  double travel = 0, m = 0.10;
  for (const double next : {0.16, 0.08, 0.13, 0.05, 0.20, 0.10}) {
    point.move(next);
    travel += std::abs(next - m);
    m = next;
    expect("Mechano-sorptive creep along the grain, share of the elastic strain",
           "after " + std::to_string(int(std::round(100 * travel))) + " % of moisture travelled",
           "Toratti 1992 (from memory), closed form", 0.45 * (1 - std::exp(-travel / 0.26)),
           point.state.sorptive[2][0] / elastic, 1e-12);
  }
  expect("Mechano-sorptive creep along the grain, share of the elastic strain",
         "slope at the start, per 100 % of moisture", "Toratti 1992 (from memory), 0.7 x 2.5", 1.75,
         wood.sorptive_share[2][0] / wood.sorptive_moisture[2], 0.03);
}

// Source: the equations of the law: the end is the sum of the shares, however often moisture moves.
TEST(MechanoSorption, HasTheStatedLimitInEveryDirection)
{
  const materials::Wood wood = only_mechano_sorptive();
  for (unsigned a = 0; a < 6; ++a) {
    DampPoint point(wood);
    materials::Vector6 stress{};
    stress[a] = MPa;
    point.load(stress, 0.06);
    for (unsigned cycle = 0; cycle < 400; ++cycle)
      point.move(cycle % 2 == 0 ? 0.16 : 0.06);
    double end = 0, limit = 0;
    for (unsigned j = 0; j < wood.sorptive_share.size(); ++j) {
      limit += wood.sorptive_share[j][a];
      end += point.state.sorptive[j][a];
    }
    const char *names[] = {"L", "R", "T", "RT", "LT", "LR"};
    expect("Limit of mechano-sorptive creep, share of the elastic strain", names[a],
           "sum of the shares", limit, end / (point.law.elastic(kelvin(20), 0.12) * stress)[a],
           1e-9 * limit);
  }
}

// Source: the equation of an element without stress: what is there decays with the moisture
// travelled, and stays while moisture rests.
TEST(MechanoSorption, RecoversOnlyWhileMoistureMoves)
{
  const materials::Wood wood = only_mechano_sorptive();
  DampPoint point(wood);
  point.load({10 * MPa, 0, 0, 0, 0, 0}, 0.06);
  point.move(0.16);
  const double before = point.state.sorptive[2][0];
  point.load({0, 0, 0, 0, 0, 0}, 0.16);
  point.rest(1e9);
  EXPECT_EQ(point.state.sorptive[2][0], before);
  point.move(0.06);
  expect("Mechano-sorptive creep after unloading", "share left after 10 % of moisture travelled",
         "exp(-0.10/0.26)", std::exp(-0.10 / 0.26), point.state.sorptive[2][0] / before, 1e-12);
}

// Source: definition: only moisture newly lost makes set, in proportion to it and to the stress.
TEST(DryingSet, ComesOnceAndOnlyBelowTheLowestMoistureSoFar)
{
  const materials::Wood wood = only_mechano_sorptive();
  DampPoint point(wood);
  const double stress = 10 * MPa, elastic = stress / wood.E_L;
  point.driest = 0.08;
  point.load({stress, 0, 0, 0, 0, 0}, 0.12);
  const auto set = [&] { return point.state.drying_set[0] / elastic; };
  const std::string what = "First-drying set, share of the elastic strain";
  const std::string source = "18 per 100 % of moisture newly lost";
  point.move(0.09);
  expect(what, "dried to 9 %, has been at 8 %", source, 0, set(), 1e-15);
  point.move(0.06); // part of the step is below
  expect(what, "dried to 6 %", source, 18 * 0.02, set(), 1e-12);
  point.move(0.15);
  point.move(0.06);
  expect(what, "damp and dry again", source, 18 * 0.02, set(), 1e-12);
  point.load({0, 0, 0, 0, 0, 0}, 0.06);
  point.move(0.03);
  point.load({stress, 0, 0, 0, 0, 0}, 0.03);
  point.move(0.05);
  point.move(0.03);
  expect(what, "dried to 3 % unloaded: no more", source, 18 * 0.02, set(), 1e-12);
}

// Source: definition: free water above fibre saturation (30 %) swells and strains nothing.
TEST(MechanoSorption, NothingMovesAboveFibreSaturation)
{
  DampPoint point(only_mechano_sorptive());
  point.driest = 0.3;
  point.load({10 * MPa, MPa, 0, 0, 0, MPa}, 0.60);
  point.move(0.35);
  point.move(0.50);
  for (unsigned a = 0; a < 6; ++a) {
    EXPECT_EQ(point.state.drying_set[a], 0);
    for (const Vector6 &element : point.state.sorptive)
      EXPECT_EQ(element[a], 0);
  }
  point.move(0.25); // the last 5 % count
  expect("Mechano-sorptive creep, dried from 50 to 25 %", "share of the elastic strain",
         "0.45 (1 - exp(-0.05/0.26))", 0.45 * (1 - std::exp(-0.05 / 0.26)),
         point.state.sorptive[2][0] / (point.law.elastic(kelvin(20), 0.12).normal[0] * 10 * MPa),
         1e-12);
}

// Source: the integral of a stress linear in moisture: one step or many give the same.
TEST(DryingSet, AStepAcrossTheLowestMoistureIsExactForALinearStress)
{
  const materials::Wood wood = only_mechano_sorptive();
  std::vector<double> sets;
  for (const unsigned steps : {1U, 7U, 1000U}) {
    DampPoint point(wood);
    point.driest = 0.077;
    point.load({2 * MPa, MPa, 0, 0, 0, 0}, 0.12);
    for (unsigned n = 1; n <= steps; ++n) {
      const double s = double(n) / steps;
      point.move(0.12 - 0.07 * s, {(2 + 5 * s) * MPa, (1 - 3 * s) * MPa, 0, 0, 0, 0});
    }
    sets.push_back(point.state.drying_set[0]);
  }
  expect("First-drying set, stress linear in moisture", "one step against a thousand",
         "exact integral", 1, sets[0] / sets[2], 1e-9);
  expect("First-drying set, stress linear in moisture", "seven steps against a thousand",
         "exact integral", 1, sets[1] / sets[2], 1e-9);
}

// Source: definition of a tangent: the remainder of the first Taylor polynomial; and linearity:
// histories of a sum are sums of histories, which unit histories rest on.
TEST(MechanoSorption, TangentAndHistoryAreLinearWhileMoistureMoves)
{
  std::mt19937 random(3);
  std::uniform_real_distribution<double> moisture(0.04, 0.22);
  const materials::WoodLaw law(materials::tables().wood("sugar maple"), 1, 0.08);
  double worst = 0, worst_sum = 0;
  for (unsigned trial = 0; trial < 50; ++trial) {
    const materials::Climate begin{kelvin(25), moisture(random), moisture(random)};
    const auto step = law.prepare(begin, {kelvin(45), moisture(random)}, 3600, 1.7);
    const auto a = random_damp_state(law, random), b = random_damp_state(law, random);
    const auto stress1 = random_stress(random), direction = random_stress(random);
    const materials::ActiveElements active = 0x5a;
    const auto strain = strain_after(law, a, step, active, stress1);
    const auto moved = strain_after(law, a, step, active, sum(stress1, 1e-2, direction));
    const auto slope = law.tangent(step, active) * direction;
    const auto split = sum(law.tangent(step, active) * stress1, 1, law.history(a, step, active));
    const auto both = law.history(sum(a, 3, b), step, active);
    const auto one = law.history(a, step, active), two = law.history(b, step, active);
    for (unsigned i = 0; i < 6; ++i) {
      EXPECT_NEAR(split[i], strain[i], 1e-15 + 1e-11 * std::abs(strain[i]));
      worst = std::max(worst, std::abs(moved[i] - strain[i] - 1e-2 * slope[i]) /
                                  (1e-2 * std::abs(slope[i]) + 1e-9));
      const double expected = one[i] + 3 * (two[i] - step.free_strain1[i]);
      worst_sum = std::max(worst_sum, std::abs(both[i] - expected) / (std::abs(expected) + 1e-9));
    }
  }
  expect("Tangent of the wood law, moisture moving", "largest relative Taylor remainder",
         "definition", 0, worst, 1e-8);
  expect("History of the wood law, moisture moving", "largest relative error of a sum", "linearity",
         0, worst_sum, 1e-10);
}

// Source: second law: dissipation = work - change of stored energy, along random paths of stress
// and moisture at one temperature. Moduli that do not change with moisture, so that moisture itself
// does no work; no coupling, so that the energy of an element can be written out.
TEST(MechanoSorption, DissipationIsNeverNegative)
{
  std::mt19937 random(4);
  std::uniform_real_distribution<double> moisture(0.04, 0.22);
  const materials::Wood wood = only_mechano_sorptive();
  double least = 0, total = 0;
  DampPoint point(wood);
  for (unsigned leg = 0; leg < 400; ++leg) {
    const double m0 = point.moisture, m1 = moisture(random);
    const auto from = point.state.stress, to = random_stress(random);
    const double before = stored_energy(wood, point.law, point.state);
    double work = 0;
    constexpr unsigned parts = 400;
    for (unsigned n = 1; n <= parts; ++n) {
      const double s = double(n) / parts;
      const auto strain0 = total_strain(point.law, point.state), stress0 = point.state.stress;
      point.move(m0 + (m1 - m0) * s, sum(scaled(1 - s, from), s, to));
      const auto strain1 = total_strain(point.law, point.state);
      for (unsigned i = 0; i < 6; ++i)
        work += 0.5 * (stress0[i] + point.state.stress[i]) * (strain1[i] - strain0[i]);
    }
    const double dissipated = work - (stored_energy(wood, point.law, point.state) - before);
    least = std::min(least, dissipated);
    total += dissipated;
    point.driest = leg % 5 == 4 ? 0.3 : point.driest; // as if new: sets again
  }
  EXPECT_GT(total, 0);
  expect("Dissipation of mechano-sorption and set, 400 random legs", "least, share of the mean",
         "second law", 0, std::min(0., least / (total / 400)), 1e-6);
}

// A step that is told the whole way of the moisture within it comes to what the small steps of that
// way come to: with constant stress both are exact.
TEST(MechanoSorption, ASwingToldAsAWayIsTheSwingFollowed)
{
  const materials::WoodLaw law(only_mechano_sorptive());
  const Vector6 stress = {7 * MPa, 0.5 * MPa, 0, 0, 0, 0.3 * MPa};
  const auto strain_after_swings = [&](bool followed) {
    materials::WoodState state;
    state.stress = stress;
    const std::array<double, 5> course = {0.09, 0.05, 0.10, 0.04, 0.08};
    double driest = 0.07, way = 0;
    const auto step = [&](const materials::Climate &from, const materials::Climate &to) {
      const auto s = law.prepare(from, to, 0);
      law.finish(state, s, law.active(state, s, stress), stress);
    };
    for (std::size_t k = 1; k < course.size(); ++k) {
      if (followed)
        step({kelvin(20), course[k - 1], driest}, {kelvin(20), course[k], driest});
      way += std::abs(course[k] - course[k - 1]);
      driest = std::min(driest, course[k]);
    }
    if (!followed)
      step({kelvin(20), course.front(), 0.07},
           {kelvin(20), course.back(), 0.07, way, 0.07 - driest});
    return total_strain(law, state);
  };
  const Vector6 followed = strain_after_swings(true), told = strain_after_swings(false);
  for (const unsigned i : {0U, 1U, 5U}) {
    report("Swings of moisture told as a way", "strain " + std::to_string(i),
           "the same swings in small steps", followed[i], told[i], 1e-9 * std::abs(followed[i]));
    EXPECT_NEAR(told[i] / followed[i], 1, 1e-9);
  }
}
} // namespace overbend::tests
