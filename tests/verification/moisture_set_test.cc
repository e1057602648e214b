// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/report.h"
#include "tests/verification/guard_neck.h"

#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <iostream>
#include <optional>

// The set of the wood itself, on a coarse whole neck without strings whose glue cannot slip: held
// bent in clamps for days, let go, left alone. All bows are against a twin of the same moisture
// that was never clamped, so what moisture does to the bow by itself is not in them.
namespace overbend::tests
{
namespace
{
constexpr double hour = 3600, day = 24 * hour, room = 294.15; // s, s, K
constexpr double bent = 1.5e-3;                               // m, back from where the neck lay

// Moisture content while clamped, and at the end of each five days after it, in straight lines.
struct Water
{
  double clamped = 0.09;
  std::array<double, 4> after{};
};

struct Bows
{
  double before = 0, released = 0, settled = 0, last = 0; // m: an hour, ten and twenty days after
};

cases::Phase phase_of(const GuardNeck &neck, cases::PhaseKind kind, const char *name, double time)
{
  cases::Phase phase;
  phase.kind = kind;
  phase.name = name;
  phase.duration = time;
  phase.air = neck.c.room;
  return phase;
}

Bows run(GuardNeck &neck, const Water &water, std::optional<double> pulled_to)
{
  using cases::PhaseKind;
  std::vector<cases::Phase> phases = {phase_of(neck, PhaseKind::rest, "before", hour),
                                      phase_of(neck, PhaseKind::clamp, "clamped", 10 * day),
                                      phase_of(neck, PhaseKind::release, "released", hour),
                                      phase_of(neck, PhaseKind::rest, "settled", 10 * day - hour),
                                      phase_of(neck, PhaseKind::rest, "later", 10 * day)};
  if (pulled_to) {
    phases[1].cords = phases[1].cradle = true;
    phases[1].pull.kind = cases::Pull::Kind::to_reading;
    phases[1].pull.bow = *pulled_to;
  }
  const std::size_t n = neck.work.model.space.n_nodes;
  const double let_go = hour + 10 * day;
  solver::ThermalHistory heat;
  solver::MoistureHistory moisture;
  const auto at = [&](double time, double m) {
    heat.add({time, std::vector<double>(n, room), {}, 0});
    moisture.add(time, std::vector<double>(n, m));
  };
  at(0, water.clamped);
  at(let_go, water.clamped);
  for (unsigned k = 0; k < 4; ++k)
    at(let_go + (k + 1) * 5 * day, water.after[k]);
  const auto history = neck.from_unstressed(phases, heat, moisture);
  EXPECT_TRUE(!pulled_to || history.phases[1].pull_reached);
  return {history.phases[0].reading.bow, history.phases[2].reading.bow,
          history.phases[3].reading.bow, history.phases[4].reading.bow};
}

// Against the twin. before: how far it was bent.
Bows set_of(GuardNeck &neck, const char *what, const Water &water)
{
  const Bows twin = run(neck, water, {});
  Bows set = run(neck, water, twin.before - bent);
  set.before = -bent;
  set.released -= twin.released;
  set.settled -= twin.settled;
  set.last -= twin.last;
  std::cout << what << ": set, mm, an hour after release " << 1e3 * set.released << ", after 10 d "
            << 1e3 * set.settled << ", after 20 d " << 1e3 * set.last << "\n";
  return set;
}

double moved(const Bows &set)
{
  return std::abs(set.last - set.released);
}
} // namespace

TEST(WoodSet, ADampNeckKeepsMoreOfItAtReleaseAndMovesMoreLater)
{
  cases::Case c = guard_case();
  c.board_glue.kind = "resorcinol";
  GuardNeck neck(c);
  const Bows normal = set_of(neck, "stays at 9 %", {0.09, {0.09, 0.09, 0.09, 0.09}});
  const Bows cycled =
      set_of(neck, "9 %, then up to 12 % and back", {0.09, {0.12, 0.09, 0.12, 0.09}});
  const Bows damp = set_of(neck, "stays at 18 %", {0.18, {0.18, 0.18, 0.18, 0.18}});
  const Bows dried = set_of(neck, "18 %, then dried to 9 %", {0.18, {0.135, 0.09, 0.09, 0.09}});
  const Bows swung = set_of(neck, "18 %, then 15 % and back", {0.18, {0.15, 0.18, 0.15, 0.18}});
  EXPECT_LT(normal.released, 0);
  EXPECT_LT(damp.released, normal.released);
  EXPECT_GT(moved(damp), moved(normal));
  EXPECT_GT(moved(dried), moved(normal));
  EXPECT_GT(moved(cycled), moved(normal));
  // Not so between two that swing by 3 %: there the normal one moves more. Why was not isolated;
  // drying slows the creep of the damp one, damping speeds that of the normal one. Pinned, so that
  // it is seen if it changes.
  report("Set of the wood, swung by 3 %", "MISS: moved in 20 days, damp over normal",
         "a damp neck moves more later: at least 1", 1, moved(swung) / moved(cycled), 0);
  EXPECT_LT(moved(swung), moved(cycled));
  EXPECT_LT(swung.last, cycled.last);
}
} // namespace overbend::tests
