// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/report.h"
#include "tests/verification/fine_tolerance.h"
#include "tests/verification/guard_neck.h"

#include "solver/strength/peaks.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

// A whole neck whose shaft is glued up from five strips, from case file to readings: dried for
// days, slack, since a set of strings is no mirror image of itself. The only source is symmetry,
// and the neck of one piece.
namespace overbend::tests
{
namespace
{
const char *const five_strips = R"(
[[lamination]]
width = "24 mm"
grain = "quarter"
run_out_across = "4 %"
[[lamination]]
width = "4 mm"
wood = "wenge"
run_out_depth = "5 %"
[[lamination]]
width = "9 mm"
grain = "20 deg"
run_out_depth = "-3 %"
run_out_depth_at_body = "2 %"
[[lamination]]
width = "3 mm"
wood = "black walnut"
[[lamination]]
width = "21 mm"
grain = "rift"
run_out_depth = "3 %"
)";

const char *const equal_strips = R"(
[[lamination]]
width = "24 mm"
[[lamination]]
width = "4 mm"
[[lamination]]
width = "9 mm"
[[lamination]]
width = "4 mm"
[[lamination]]
width = "24 mm"
)";

// Five days of rest in dry air, then two of hot cars and cold nights, whose hours the steps do not
// follow.
std::vector<cases::Phase> dry_days(const cases::Case &c)
{
  constexpr double day = 86400;
  for (cases::Phase rest : c.phases)
    if (rest.kind == cases::PhaseKind::rest) {
      rest.duration = 5 * day;
      rest.air.humidity = 0.25;
      cases::Phase play = rest;
      play.kind = cases::PhaseKind::play;
      play.name = "play";
      play.duration = 2 * day;
      play.climate = each_day({{0, 20, 0.3}, {12, 40, 0.2}, {16, 23, 0.4}, {23, 8, 0.6}});
      return {rest, play};
    }
  throw std::logic_error("the schedule has no rest");
}

struct Dried
{
  std::vector<solver::Reading> readings;
  double most_used = 0; // share of strength in the shaft at the end
};

Dried dried(const cases::Case &c, solver::Workbench &work)
{
  const std::vector<cases::Phase> phases = dry_days(c);
  const auto heat = solver::heat_of(work, phases);
  const auto moisture = solver::moisture_of(work, phases, heat);
  solver::Progress start;
  start.state = solver::unstressed(work.model);
  solver::SimulationOptions options;
  options.bow_error = c.numerics.bow_error;
  options.moisture = &moisture;
  work.mechanics.tolerance = fine_tolerance;
  const auto history =
      solver::simulate(work.neck(), phases, work.planned_strings, heat, start, options);
  Dried result;
  for (const solver::StepRecord &step : history.steps)
    result.readings.push_back(step.reading);
  const std::vector<double> warm(work.model.space.n_nodes, 293.15);
  result.most_used = solver::wood_use(work.model, work.means, history.end.state, warm)
                         .at(solver::Region::shaft)
                         .value;
  return result;
}

Dried dried(const cases::Case &c)
{
  GuardNeck neck(c);
  return dried(neck.c, neck.work);
}

void mirror(cases::Grain &grain)
{
  const auto negate = [](std::optional<double> &value) {
    if (value)
      value = -*value;
  };
  grain.ring_angle = -grain.ring_angle;
  grain.run_out_across = -grain.run_out_across;
  negate(grain.ring_angle_at_end);
  negate(grain.run_out_across_at_end);
}

cases::Case mirrored(cases::Case c)
{
  std::reverse(c.neck.laminations.begin(), c.neck.laminations.end());
  for (cases::Lamination &strip : c.neck.laminations)
    mirror(strip.piece.grain);
  mirror(c.neck.board.grain);
  return c;
}

struct Apart
{
  double bow = 0, twist = 0; // shares of the largest bow, the twist by its lift over the nut
};

Apart apart(const Dried &a, const Dried &b, double width, bool sides_swapped)
{
  double size = 0;
  Apart off;
  for (std::size_t s = 0; s < a.readings.size(); ++s) {
    const solver::Reading &one = a.readings[s], &other = b.readings.at(s);
    const double bass = sides_swapped ? other.bow_treble : other.bow_bass,
                 treble = sides_swapped ? other.bow_bass : other.bow_treble;
    size = std::max({size, std::abs(one.bow), std::abs(one.bow_bass), std::abs(one.bow_treble)});
    off.bow = std::max({off.bow, std::abs(one.bow - other.bow), std::abs(one.bow_bass - bass),
                        std::abs(one.bow_treble - treble)});
    off.twist = std::max(
        off.twist, width * std::abs(one.twist - (sides_swapped ? -other.twist : other.twist)));
  }
  return {off.bow / size, off.twist / size};
}
} // namespace

// Equal strips share one mesh with the same neck in one piece.
TEST(GluedUpNeck, OfEqualStripsReadsAsTheNeckOfOnePiece)
{
  const cases::Case glued = guard_case(equal_strips);
  GuardNeck neck(glued);
  ASSERT_TRUE(neck.work.model.strips.has_value());
  cases::Case plain = glued;
  plain.neck.laminations.clear();
  const solver::PlanInput input{
      plain, neck.mesh, materials::tables(), [](const std::string &) {}, {}};
  solver::Workbench work(input.the_case, input.mesh, input.tables, {});
  ASSERT_FALSE(work.model.strips.has_value());
  const Dried one = dried(plain, work), five = dried(neck.c, neck.work);
  ASSERT_EQ(one.readings.size(), five.readings.size());
  constexpr double allowed = 1e-9;
  const Apart off = apart(one, five, glued.neck.nut_width, false);
  EXPECT_LE(off.bow, allowed);
  EXPECT_LE(off.twist, allowed);
  EXPECT_NEAR(five.most_used, one.most_used, allowed);
  report("Neck of five equal strips against one piece, dried and on tour",
         "bows, share of the largest", "one piece", 0, off.bow, allowed);
}

TEST(GluedUpNeck, OfFiveStripsMirrorsItsReadings)
{
  const cases::Case c = guard_case(five_strips);
  ASSERT_EQ(c.neck.laminations.size(), 5u);
  const Dried one = dried(c), other = dried(mirrored(c));
  ASSERT_EQ(one.readings.size(), other.readings.size());
  const Apart off = apart(one, other, c.neck.nut_width, true);
  const solver::Reading &end = one.readings.back();
  std::printf("five strips: bow %.5f %.5f %.5f mm, twist %.5f deg, used %.3f\n", 1e3 * end.bow_bass,
              1e3 * end.bow, 1e3 * end.bow_treble, end.twist * 180 / std::acos(-1.), one.most_used);
  constexpr double allowed = 1e-6; // of the largest bow, as for a whole neck of one piece
  EXPECT_LE(off.bow, allowed);
  EXPECT_LE(off.twist, allowed);
  EXPECT_NEAR(other.most_used, one.most_used, 1e-6);
  report("Neck of five strips and its mirror image, dried and on tour",
         "bows, share of the largest", "symmetry", 0, off.bow, allowed);
  report("Neck of five strips and its mirror image, dried and on tour",
         "twist times width, share of the largest bow", "symmetry", 0, off.twist, allowed);
  // There is something to be mirrored, and the strips matter.
  const Apart own = apart(one, one, c.neck.nut_width, true);
  EXPECT_GT(std::min(own.bow, own.twist), 1e-3);
  EXPECT_GT(one.most_used, 0.01);
}
} // namespace overbend::tests
