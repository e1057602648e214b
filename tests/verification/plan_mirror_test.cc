// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/report.h"
#include "tests/verification/guard_neck.h"
#include "tests/verification/plan_neck.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

// Bass and treble of a whole neck are mirror images: tuners, grain, cords and pulls turned over
// must turn the readings over and nothing else. The only source is symmetry. The histories start
// from the unstressed neck, so the found readings do not enter, and end before strings go on.
namespace overbend::tests
{
namespace
{
constexpr double degree = 3.14159265358979323846 / 180;
constexpr double allowed = 1e-6; // of the largest value

// What the cords are to bring the neck to.
struct Pulled
{
  double bow = 0, twist = 0; // m, rad
};

void negate(std::optional<double> &value)
{
  if (value)
    value = -*value;
}

void mirror(cases::Grain &grain)
{
  grain.ring_angle = -grain.ring_angle;
  grain.run_out_across = -grain.run_out_across;
  negate(grain.ring_angle_at_end);
  negate(grain.run_out_across_at_end);
}

cases::Case mirrored(cases::Case c)
{
  using cases::TunerLayout;
  if (c.tuners.layout != TunerLayout::both_sides)
    c.tuners.layout = c.tuners.layout == TunerLayout::bass_line ? TunerLayout::treble_line
                                                                : TunerLayout::bass_line;
  for (cases::Piece *piece : {&c.neck.shaft, &c.neck.board, &c.neck.headstock.piece})
    mirror(piece->grain);
  c.probe.across = -c.probe.across;
  return c;
}

// All posts on the bass side and grain at odd angles that change along the neck.
cases::Case lopsided_case()
{
  cases::Case c = guard_case();
  c.tuners.layout = cases::TunerLayout::bass_line;
  c.tuners.across = 15e-3;
  c.neck.shaft.grain = {0.5, 0.04, 0.02, 0.9, -0.02, {}};
  c.neck.board.grain = {-0.3, -0.03, 0.01, -0.6, 0.03, {}};
  c.probe.across = 0.4;
  return c;
}

// Posts on both sides, flat-sawn wood with run-out in depth only.
cases::Case symmetric_case()
{
  cases::Case c = guard_case();
  c.neck.shaft.grain = {0, 0, 0.02, {}, {}, {}};
  c.neck.board.grain = {0, 0, 0.01, {}, {}, {}};
  c.probe.across = 0;
  return c;
}

// Cold pull, short heat, release while hot.
solver::History short_history(const cases::Case &c, const Pulled &pulled)
{
  PlanNeck neck(c);
  std::vector<cases::Phase> phases;
  for (cases::Phase phase : neck.c.phases) {
    using cases::PhaseKind;
    if (phase.kind != PhaseKind::clamp && phase.kind != PhaseKind::heat &&
        phase.kind != PhaseKind::release)
      continue;
    if (phase.pull.kind == cases::Pull::Kind::to_reading) {
      phase.pull.bow = pulled.bow;
      phase.pull.twist = pulled.twist;
    }
    phase.duration = phase.kind == PhaseKind::heat ? 1500 : 60;
    phases.push_back(phase);
  }
  return neck.run(phases, solver::heat_of(neck.work, phases), neck.unstressed());
}

double largest_bow(const solver::History &history)
{
  double size = 0;
  for (const solver::StepRecord &step : history.steps)
    size = std::max({size, std::abs(step.reading.bow_bass), std::abs(step.reading.bow),
                     std::abs(step.reading.bow_treble)});
  return size;
}

// Largest differences between a history and the mirror image of another, over the largest values.
struct Differences
{
  double bow = 0, twist = 0, cord = 0, take_up = 0;
};

Differences against_mirror(const solver::History &a, const solver::History &b, double width)
{
  Differences d;
  double pull = 0, drawn = 0;
  const double bow = largest_bow(a);
  for (std::size_t s = 0; s < a.steps.size(); ++s) {
    const solver::StepRecord &one = a.steps[s], &other = b.steps[s];
    d.bow = std::max({d.bow, std::abs(one.reading.bow_bass - other.reading.bow_treble),
                      std::abs(one.reading.bow - other.reading.bow),
                      std::abs(one.reading.bow_treble - other.reading.bow_bass)});
    d.twist = std::max(d.twist, std::abs(one.reading.twist + other.reading.twist));
    for (unsigned side = 0; side < 2; ++side) {
      pull = std::max(pull, std::abs(one.forces.cord[side]));
      drawn = std::max(drawn, std::abs(one.take_up[side]));
      d.cord = std::max(d.cord, std::abs(one.forces.cord[side] - other.forces.cord[1 - side]));
      d.take_up = std::max(d.take_up, std::abs(one.take_up[side] - other.take_up[1 - side]));
    }
  }
  return {d.bow / bow, d.twist * width / bow, d.cord / pull, d.take_up / drawn};
}

void expect_none(const std::string &what, const std::string &quantity, double share)
{
  report(what, quantity, "symmetry", 0, share, allowed);
  EXPECT_LE(share, allowed) << quantity;
}

void print_ends(const char *name, const solver::History &history)
{
  for (const solver::PhaseEnd &end : history.phases)
    std::printf("%s: bow %.6f %.6f %.6f mm, twist %.6f deg, hardest pulls %.4f %.4f N\n", name,
                1e3 * end.reading.bow_bass, 1e3 * end.reading.bow, 1e3 * end.reading.bow_treble,
                end.reading.twist / degree, end.largest_cord[0], end.largest_cord[1]);
}
} // namespace

TEST(MirrorOfAWholeNeck, SwappedSidesGiveTheMirrorImageOfEveryReading)
{
  const cases::Case c = lopsided_case();
  const solver::History one = short_history(c, {-1.5e-3, 0.4 * degree});
  const solver::History other = short_history(mirrored(c), {-1.5e-3, -0.4 * degree});
  print_ends("as it is", one);
  print_ends("mirrored", other);
  ASSERT_EQ(one.steps.size(), other.steps.size());
  const double width = c.neck.nut_width;
  const Differences d = against_mirror(one, other, width);
  const std::string what = "Whole neck with its sides swapped";
  expect_none(what, "bows, share of the largest bow", d.bow);
  expect_none(what, "twist times width, share of the largest bow", d.twist);
  expect_none(what, "cords, share of the hardest pull", d.cord);
  expect_none(what, "take-ups, share of the longest", d.take_up);
  // The case is not symmetric: something is there to be mirrored.
  const Differences own = against_mirror(one, one, width);
  EXPECT_GT(std::min({own.bow, own.twist, own.cord, own.take_up}), 1e-2);
}

TEST(MirrorOfAWholeNeck, SymmetricCaseHasNoTwist)
{
  const cases::Case c = symmetric_case();
  const solver::History history = short_history(c, {-1.5e-3, 0});
  print_ends("symmetric", history);
  const double bow = largest_bow(history);
  EXPECT_GT(bow, 1e-3);
  double twist = 0;
  for (const solver::StepRecord &step : history.steps)
    twist = std::max(twist, std::abs(step.reading.twist));
  expect_none("Symmetric whole neck", "twist times width, share of the largest bow",
              twist * c.neck.nut_width / bow);
  expect_none("Symmetric whole neck", "bass against treble bow, share of the largest bow",
              against_mirror(history, history, c.neck.nut_width).bow);
}
} // namespace overbend::tests
