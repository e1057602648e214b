// SPDX-License-Identifier: GPL-3.0-or-later
// What a bench reads at a stage, on lines made by hand: each number is worked out beside it.
#include "cases/read/read_case.h"
#include "solver/report/run_readings.h"

#include <gtest/gtest.h>

#include <cmath>

using namespace overbend;
using namespace overbend::solver;

namespace
{
// Frets 100 mm apart, heights in mm.
SampledLine line_of(const std::vector<double> &heights_mm)
{
  SampledLine line;
  for (std::size_t i = 0; i < heights_mm.size(); ++i) {
    line.x.push_back(0.1 * double(i));
    line.z.push_back(1e-3 * heights_mm[i]);
  }
  return line;
}

// Six frets; the edge lies on frets 1 and 5, read at fret 3.
cases::Case small_case()
{
  cases::Case c = cases::preset_case("electric");
  c.neck.frets = 5;
  c.found.rest_fret_a = 1;
  c.found.rest_fret_b = 5;
  c.found.bow_fret = 3;
  cases::Phase clamp;
  clamp.name = "clamp";
  clamp.duration = 600;
  clamp.cords = true;
  cases::Phase rest;
  rest.name = "rest";
  rest.duration = 3600;
  c.phases = {clamp, rest};
  return c;
}

const std::vector<double> valley = {0, 0, -0.3, -0.4, -0.3, 0};
const std::vector<double> hump = {0, 0, 0.3, 0.4, 0.3, 0};

BoardShape shape_of(const std::vector<double> &bass, const std::vector<double> &centre,
                    const std::vector<double> &treble)
{
  return {line_of(bass), line_of(centre), line_of(treble)};
}

std::size_t column(const ReadingsTable &table, const std::string &name)
{
  for (std::size_t i = 0; i < table.columns.size(); ++i)
    if (table.columns[i].name == name)
      return i;
  ADD_FAILURE() << "no column " << name;
  return 0;
}

std::optional<double> value(const ReadingsTable &table, std::size_t row, const std::string &name)
{
  return table.rows.at(row).values.at(column(table, name));
}
} // namespace

TEST(EdgeOnLine, RestsOverAValleyAndShowsItsDeepestGap)
{
  const EdgeOnLine edge = edge_on_line(line_of(valley), 1, 5);
  EXPECT_FALSE(edge.rocks);
  EXPECT_EQ(edge.rest_a, 1);
  EXPECT_EQ(edge.rest_b, 5);
  EXPECT_NEAR(edge.deepest_gap, 0.4e-3, 1e-12);
  EXPECT_EQ(edge.deepest_gap_fret, 3);
  ASSERT_EQ(edge.gap.size(), 5u);
  EXPECT_NEAR(edge.gap[1], 0.3e-3, 1e-12); // fret 2
  EXPECT_EQ(edge.end_gap, 0);
}

// Balanced on fret 3, 0.4 mm above the chord, the edge lies 0.4 mm over both ends and 0.1 mm over
// frets 2 and 4.
TEST(EdgeOnLine, RocksOnAHumpAndShowsTheSameGapAtBothEnds)
{
  const EdgeOnLine edge = edge_on_line(line_of(hump), 1, 5);
  EXPECT_TRUE(edge.rocks);
  EXPECT_EQ(edge.hump_fret, 3);
  EXPECT_NEAR(edge.end_gap, 0.4e-3, 1e-12);
  EXPECT_EQ(edge.deepest_gap, 0);
  const double expected[5] = {0.4e-3, 0.1e-3, 0, 0.1e-3, 0.4e-3};
  for (int i = 0; i < 5; ++i)
    EXPECT_NEAR(edge.gap[std::size_t(i)], expected[i], 1e-12) << "fret " << i + 1;
}

// S-shape: high at fret 2, low at fret 4. The edge lies firmly on frets 2 and 5 (300 of 400 mm),
// 0.3 mm and 0 mm high: over fret 4 it is at 0.1 mm, 0.5 mm above it; over fret 3 at 0.2 mm; over
// fret 1 it stands out at 0.4 mm.
TEST(EdgeOnLine, RestsOnAHighPointInsideOfAnS)
{
  const EdgeOnLine edge = edge_on_line(line_of({0, 0, 0.3, 0, -0.4, 0}), 1, 5);
  EXPECT_FALSE(edge.rocks);
  EXPECT_EQ(edge.rest_a, 2);
  EXPECT_EQ(edge.rest_b, 5);
  EXPECT_EQ(edge.deepest_gap_fret, 4);
  EXPECT_NEAR(edge.deepest_gap, 0.5e-3, 1e-12);
  EXPECT_NEAR(edge.gap[0], 0.4e-3, 1e-12);
  EXPECT_NEAR(edge.gap[2], 0.2e-3, 1e-12);
}

TEST(EdgeOnLine, StraightLineIsNotSaidToRock)
{
  const EdgeOnLine edge = edge_on_line(line_of({0, 0, 1e-3, 2e-3, 1e-3, 0}), 1, 5); // 2 um
  EXPECT_FALSE(edge.rocks);
}

TEST(StageReadings, GiveBowDeepestFretAndReliefOnEachLine)
{
  const cases::Case c = small_case();
  // Treble: deepest at fret 4 (0.5 mm), at fret 3 0.4 mm.
  const BoardShape shape = shape_of(valley, hump, {0, 0, -0.2, -0.4, -0.5, 0});
  const StageReadings r = stage_readings(c, shape, {0.4e-3, -0.4e-3, 0.4e-3, 0.01}, {});
  EXPECT_NEAR(r.line[0].bow, 0.4e-3, 1e-12);
  EXPECT_NEAR(r.line[1].bow, -0.4e-3, 1e-12);
  EXPECT_NEAR(r.line[2].bow, 0.4e-3, 1e-12);
  EXPECT_EQ(r.line[2].deepest_fret, 4);
  EXPECT_NEAR(r.line[2].deepest_bow, 0.5e-3, 1e-12);
  EXPECT_NEAR(r.line[1].deepest_bow, -0.4e-3, 1e-12);
  // A string held down spans the valley and lies on the hump.
  EXPECT_NEAR(r.line[0].relief, 0.4e-3, 1e-12);
  EXPECT_EQ(r.line[2].relief_fret, 4);
  EXPECT_NEAR(r.line[2].relief, 0.5e-3, 1e-12);
  EXPECT_NEAR(r.line[1].relief, 0, 1e-12);
  // 300 mm x sin(0.01) = 2.99995 mm.
  EXPECT_NEAR(r.over_sticks, 2.99995e-3, 1e-8);
}

// 0.1 mm built in at fret 3 is 4 x 0.1 x (1 x 3)/16 = 0.075 mm at frets 2 and 4 by the parabola.
TEST(StageReadings, AddWhatIsAsBuiltAsAParabola)
{
  const cases::Case c = small_case();
  const Reading as_built{0.1e-3, 0, 0, 0.002};
  const StageReadings r = stage_readings(c, shape_of(valley, valley, valley), {}, as_built);
  EXPECT_NEAR(r.line[0].bow, 0.5e-3, 1e-12);
  EXPECT_NEAR(r.line[0].bow_by_fret.at(1), 0.375e-3, 1e-12);
  EXPECT_NEAR(r.line[1].bow, 0.4e-3, 1e-12);
  EXPECT_NEAR(r.twist, 0.002, 1e-15);
}

// A line of 100 mm in points 5 mm apart, each for 5 mm of 40 mm width. Shear 1 MPa in the first
// 10 mm (0, 5, 10 mm), -0.4 MPa in the last, 0.1 MPa between; slip 0.2 mm at the nut end, 0.05 mm
// at the body end.
TEST(LineEnds, SlipAtTheEndsAndShearOverTenMillimetres)
{
  std::vector<LinePoint> points;
  for (int i = 0; i <= 20; ++i) {
    LinePoint p;
    p.along = p.x = 5e-3 * i;
    p.area = 5e-3 * 40e-3;
    p.shear = i <= 2 ? 1e6 : i >= 18 ? -0.4e6 : 0.1e6;
    p.slip = i == 0 ? 0.2e-3 : i == 20 ? 0.05e-3 : 0;
    points.push_back(p);
  }
  std::swap(points[0], points[7]); // in any order
  const LineEnds ends = line_ends(points);
  EXPECT_NEAR(ends.slip_nut_end, 0.2e-3, 1e-12);
  EXPECT_NEAR(ends.slip_body_end, 0.05e-3, 1e-12);
  EXPECT_NEAR(ends.shear_nut_end, 1e6, 1e-3);
  EXPECT_NEAR(ends.shear_body_end, -0.4e6, 1e-3);
  EXPECT_NEAR(ends.shear, 1e6, 1e-3);
  EXPECT_NEAR(ends.shear_x, 5e-3, 1e-9);
  EXPECT_EQ(line_ends(std::vector<LinePoint>{}).shear, 0);
}

namespace
{
// One step in each phase: rocking in the clamp, resting afterwards.
struct SmallRun
{
  cases::Case c = small_case();
  History history;
  std::vector<BenchState> states;
  std::vector<HeatReading> heat;

  SmallRun()
  {
    for (unsigned i = 0; i < 2; ++i) {
      StepRecord step;
      step.time = i == 0 ? 0 : 600;
      step.phase = i;
      step.forces.cord = {10, 20};
      history.steps.push_back(step);
      BenchState state;
      state.phase = i;
      state.shape = i == 0 ? shape_of(hump, hump, hump) : shape_of(valley, valley, valley);
      state.line = {{"board", {0.1e-3, -0.2e-3, 0.3e6, -0.4e6, 0.5e6, 0.05}}};
      state.use[Region::shaft].value = 0.25;
      states.push_back(state);
      heat.emplace_back();
      PhaseEnd end;
      end.phase = i;
      end.time = i == 0 ? 600 : 4200;
      end.shape_at_start = end.shape = state.shape;
      history.phases.push_back(end);
    }
  }
  ReadingsTable readings() const { return readings_table(c, history, states, {}, heat); }
};
} // namespace

TEST(ReadingsOfARun, RestingAndRockingExcludeEachOther)
{
  const ReadingsTable table = SmallRun().readings();
  EXPECT_NO_THROW(table.check());
  const std::string gap = "straightedge resting, gap bass, frets 1 and 5",
                    end_gap = "straightedge rocking, end gap bass, frets 1 and 5";
  EXPECT_FALSE(value(table, 0, gap).has_value());
  EXPECT_NEAR(value(table, 0, end_gap).value(), 0.4e-3, 1e-12);
  EXPECT_EQ(value(table, 0, "straightedge rocking, hump treble, at"), 3);
  EXPECT_NEAR(value(table, 1, gap).value(), 0.4e-3, 1e-12);
  EXPECT_FALSE(value(table, 1, end_gap).has_value());
  EXPECT_NEAR(value(table, 1, "relief treble, string held down at frets 1 and 5").value(), 0.4e-3,
              1e-12);
}

TEST(ReadingsOfARun, HoldGlueLinesAndStrength)
{
  const ReadingsTable table = SmallRun().readings();
  EXPECT_EQ(value(table, 1, "slip of board glue line, nut end"), 0.1e-3);
  EXPECT_EQ(value(table, 1, "slip of board glue line, body end"), -0.2e-3);
  EXPECT_EQ(value(table, 1, "shear of board glue line, 10 mm at the nut end"), 0.3e6);
  EXPECT_EQ(value(table, 1, "shear of board glue line, 10 mm at the body end"), -0.4e6);
  EXPECT_EQ(value(table, 1, "share of strength used, shaft"), 0.25);
  const std::string csv = to_csv(table, {});
  for (const char *head :
       {"\"shear of board glue line, 10 mm at the nut end [MPa]\"",
        "\"slip of board glue line, nut end [mm]\",\"slip of board glue line, nut end [thou]\"",
        "\"share of strength used, shaft [-]\"", "twist at the tips of 300 mm winding sticks [mm],",
        "\"straightedge rocking, hump bass, at [fret]\"",
        "pull of the bass end of the bar [N],pull of the bass end of the bar [kgf],"})
    EXPECT_NE(csv.find(head), std::string::npos) << head;
}

TEST(ReadingsOfARun, NeedOneStateAStep)
{
  SmallRun run;
  run.states.pop_back();
  EXPECT_THROW(run.readings(), std::logic_error);
}

TEST(GapsOfARun, HaveARowForEachFretAtStartAndEndOfEachPhase)
{
  const SmallRun run;
  const ReadingsTable table = gaps_table(run.c, run.history, {}, std::vector<double>(6, 0.04));
  ASSERT_EQ(table.rows.size(), 2u * 2 * 5);
  EXPECT_NO_THROW(table.check());
  // Second row: fret 2 at the start of the clamp. Electric preset: scale of its own, fret 2 at
  // L (1 - 2^(-2/12)).
  EXPECT_EQ(table.rows[1].phase, "clamp");
  EXPECT_EQ(table.rows[1].moment, "start");
  EXPECT_EQ(value(table, 1, "fret"), 2);
  EXPECT_NEAR(value(table, 1, "from the nut").value(),
              run.c.neck.scale_length * (1 - std::exp2(-2. / 12)), 1e-12);
  EXPECT_NEAR(value(table, 1, "bow bass, over frets 1 and 5").value(), -0.3e-3, 1e-12);
  EXPECT_NEAR(value(table, 1, "gap under the straightedge bass").value(), 0.1e-3, 1e-12);
  EXPECT_NEAR(value(table, 11, "gap under the straightedge bass").value(), 0.3e-3, 1e-12);
  EXPECT_EQ(value(table, 1, "twist against fret 5"), 0);
  EXPECT_NE(to_csv(table, {}).find("from the nut [mm],from the nut [in]"), std::string::npos);
}

// Treble 0.4 mm up at the nut-side rest over 40 mm: atan(0.01). Half way, half of what is built in.
TEST(GapsOfARun, TwistIsAgainstTheFretAtTheBody)
{
  const cases::Case c = small_case();
  const BoardShape shape = shape_of({0, 0, 0, 0, 0, 0}, {0, 0, 0, 0, 0, 0}, {0, 0.4, 0, 0, 0, 0});
  const std::vector<double> across(6, 0.04);
  EXPECT_NEAR(twist_at_fret(c, shape, {}, across, 1), std::atan(0.01), 1e-12);
  EXPECT_NEAR(twist_at_fret(c, shape, {0, 0, 0, 0.002}, across, 3), 0.001, 1e-12);
  EXPECT_NEAR(twist_at_fret(c, shape, {0, 0, 0, 0.002}, across, 5), 0, 1e-12);
}
