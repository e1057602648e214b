// SPDX-License-Identifier: GPL-3.0-or-later
// What the plots of a plan are made of: the axis of time, bands, levels, ranges and differences.
// First: deal.II has a macro that gmock does not bear.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "solver/results/text_file.h"
#include "tests/unit/invented_plan.h"
#include "tests/unit/output_helpers.h"
#include "viz/plots/time_axis.h"

#include <set>

using namespace overbend;
using ::testing::Contains;
using ::testing::HasSubstr;
using ::testing::Not;

namespace
{
constexpr double hour = 3600;

class Plots : public ::testing::Test
{
protected:
  viz::PlanFile plan(solver::Verdict::Kind kind = solver::Verdict::do_it)
  {
    solver::write_text_file(folder.file("plan.json"),
                            tests::invented_plan(tests::two_passes(), kind));
    return viz::PlanFile(folder.file(""));
  }
  tests::TemporaryFolder folder;
};

std::vector<viz::PlanPhase> a_pass()
{
  return {{"clamp cold", 0, hour / 3, false, true, false, 1},
          {"heat", hour / 3, hour, true, true, false, 1},
          {"hold", hour, 4 * hour, true, true, false, 1},
          {"cool", 4 * hour, 18 * hour, false, true, false, 1},
          {"rest", 18 * hour, 42 * hour, false, false, false, 1}};
}

std::vector<std::string> names_of(const std::vector<viz::Curve> &curves)
{
  std::vector<std::string> names;
  for (const viz::Curve &curve : curves)
    names.push_back(curve.name);
  return names;
}
} // namespace

TEST(TimeAxis, GivesTheHotHoursMoreRoomThanTheRest)
{
  const viz::TimeAxis axis(a_pass(), 42 * hour);
  const double hot = axis.at(3 * hour) - axis.at(2 * hour);
  EXPECT_NEAR(hot, 3, 1e-9); // the stated room of an hour with the bar on
  EXPECT_GT(hot, 10 * (axis.at(40 * hour) - axis.at(39 * hour)));
  EXPECT_GT(axis.at(4.5 * hour) - axis.at(4 * hour), axis.at(9 * hour) - axis.at(8.5 * hour))
      << "most happens right after the heat goes off";
  double before = -1;
  for (double time = 0; time <= 42 * hour; time += hour / 10) {
    EXPECT_GT(axis.at(time), before) << time / hour;
    before = axis.at(time);
  }
  EXPECT_NEAR(axis.at(42 * hour), axis.end(), 1e-9);
}

TEST(TimeAxis, IsMarkedByTheClockOfThePass)
{
  viz::Plot plot;
  const viz::TimeAxis axis(a_pass(), 42 * hour);
  axis.put_on(plot);
  std::vector<std::string> marks;
  for (const auto &[place, name] : plot.x_marks)
    marks.push_back(name);
  EXPECT_THAT(marks, Contains("0:00"));  // heat on
  EXPECT_THAT(marks, Contains("3:40"));  // heat off
  EXPECT_THAT(marks, Contains("17:40")); // release
  EXPECT_THAT(marks, Contains("+24:00"));
  ASSERT_EQ(plot.bands.size(), 5u);
  EXPECT_EQ(plot.bands[2].kind, viz::BandKind::heated);
  EXPECT_EQ(plot.bands[3].kind, viz::BandKind::clamped);
  EXPECT_EQ(plot.bands[4].kind, viz::BandKind::free);
  for (std::size_t i = 1; i < plot.bands.size(); ++i)
    EXPECT_EQ(plot.bands[i].from, plot.bands[i - 1].to);
}

TEST_F(Plots, PhasesOfBothPassesAreBandsWithTheirNames)
{
  const viz::Plot plot = viz::bow_plot(plan());
  std::set<std::string> names;
  for (const viz::Band &band : plot.bands)
    names.insert(band.name);
  EXPECT_THAT(names, Contains("hold"));
  EXPECT_THAT(names, Not(Contains("hold, pass 2"))) << "the heading of its pass says which";
  ASSERT_EQ(plot.over_bands.size(), 2u);
  EXPECT_EQ(plot.over_bands[1].second, "pass 2");
}

TEST_F(Plots, TargetLimitsAndRangesAreDrawn)
{
  const viz::PlanFile doing = plan();
  const viz::Plot bow = viz::bow_plot(doing);
  ASSERT_EQ(bow.levels.size(), 1u);
  EXPECT_NEAR(bow.levels[0].y, 1e3 * doing.number("/target/relief_m"), 1e-9);
  ASSERT_FALSE(bow.ranges.empty());
  EXPECT_LT(bow.ranges[0][0].low, bow.ranges[0][0].high);
  EXPECT_NEAR(viz::cord_plot(doing).levels.at(0).y, doing.number("/cord_limit_N"), 1e-9);
  EXPECT_EQ(viz::temperature_plot(doing).levels.size(), 2u);
  const std::string script = viz::gnuplot_script(bow);
  EXPECT_THAT(script, HasSubstr("'target, strung'"));
  EXPECT_THAT(script, HasSubstr("filledcurves"));
}

// A refusal gives no orders: no stop temperature, and nothing to expect.
TEST_F(Plots, ARefusalShowsNoStopAndNoRange)
{
  const viz::PlanFile no = plan(solver::Verdict::not_by_heat);
  EXPECT_TRUE(viz::temperature_plot(no).levels.empty());
  EXPECT_TRUE(viz::bow_plot(no).ranges.empty());
}

TEST_F(Plots, TheChangeInTheClampIsAStageLessTheOneBefore)
{
  const viz::PlanFile two = plan();
  const viz::Plot clamped = viz::clamp_bow_plot(two), change = viz::clamp_change_plot(two);
  EXPECT_THAT(names_of(viz::free_bow_plot(two).curves), Contains("as found"));
  EXPECT_THAT(names_of(clamped.curves), Not(Contains("as found")));
  ASSERT_GE(clamped.curves.size(), 4u);
  ASSERT_FALSE(change.curves.empty());
  EXPECT_EQ(change.curves[0].name, clamped.curves[1].name);
  for (std::size_t i = 0; i < change.curves[0].points.size(); ++i)
    EXPECT_NEAR(change.curves[0].points[i].second,
                clamped.curves[1].points[i].second - clamped.curves[0].points[i].second, 1e-9);
  // Nothing is taken from a stage of another pass.
  EXPECT_EQ(change.curves.size(), clamped.curves.size() - 2);
}

// Grey print: no two curves share dash and mark.
TEST_F(Plots, CurvesDifferInDashAndMark)
{
  const std::string script = viz::gnuplot_script(viz::temperature_plot(plan()));
  std::set<std::string> marks;
  std::size_t curves = 0;
  for (std::size_t at = 0; (at = script.find(" pt ", at + 1)) != script.npos; ++curves)
    marks.insert(script.substr(at, script.find(" ps ", at) - at));
  EXPECT_EQ(curves, 6u);
  EXPECT_EQ(marks.size(), curves);
}

TEST_F(Plots, ThePictureIsCalledByWhatItShows)
{
  const std::string svg = viz::Plotter().draw(viz::cord_plot(plan()));
  EXPECT_THAT(svg, HasSubstr("<title>Pull of the cords until release</title>"));
  EXPECT_THAT(svg, Not(HasSubstr("GNUPLOT")));
}
