// SPDX-License-Identifier: GPL-3.0-or-later
// What the plan says in words: both units beside every number, and readings at every stage.
// First: deal.II has a macro that gmock does not bear.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "cases/read/read_case.h"
#include "materials/tables.h"
#include "solver/report/plan_advice.h"
#include "solver/report/plan_stages.h"
#include "solver/text/plan_text.h"
#include "solver/verdict/verdict.h"
#include "solver/words/shop_words.h"
#include "tests/both_units.h"
#include "tests/unit/invented_plan.h"

#include <nlohmann/json.hpp>

#include <sstream>

using namespace overbend;
using solver::Verdict;
using ::testing::HasSubstr;
using ::testing::IsEmpty;
using ::testing::Not;
using tests::bare_numbers;
using tests::in_one_line;

namespace
{
std::string all_of(const std::vector<std::string> &sentences)
{
  std::string text;
  for (const std::string &sentence : sentences)
    text += sentence + "\n";
  return text;
}

cases::Case a_case()
{
  cases::Case c = cases::preset_case("electric");
  c.board_glue.kind = "white PVA";
  c.found.twist = 0.0044;
  return c;
}
} // namespace

TEST(BothUnits, TheScanSeesANumberWithoutItsPartner)
{
  EXPECT_THAT(bare_numbers("cords 77 and 138 N."), testing::SizeIs(1));
  EXPECT_THAT(bare_numbers("by 0.29 mm, one degree"), testing::SizeIs(1));
  EXPECT_THAT(bare_numbers("at 48 degC for 30 N/mm each"), testing::SizeIs(2));
  EXPECT_THAT(bare_numbers("0.29 mm\n  (11 thou), 138 N (14.1 kgf, 31.0\n lbf), 40 to 45 degC (104 "
                           "to 113 degF), 30 N/mm (171 lbf/in), 6 mm (1/4 in); mm / thou"),
              IsEmpty());
}

TEST(BothUnits, StandBesideEveryNumberOfAPlan)
{
  for (const cases::Case &c : {a_case(), tests::two_passes()})
    for (const Verdict::Kind kind : {Verdict::with_cautions, Verdict::changed, Verdict::do_not}) {
      solver::PlanReport report = tests::invented_report(c, kind);
      report.line = solver::LineWarmth{};
      report.line->nut_end = report.line->middle = report.line->body_end = 325;
      report.line->softens_before = 310;
      report.line->softens_driest = 316;
      report.stiffness_factor = 1.12;
      EXPECT_THAT(bare_numbers(solver::plan_text(report)), IsEmpty());
    }
}

namespace
{
// Worn frets, a neck angle that is off, a free warming, months of play, and moisture.
cases::Case a_full_case()
{
  cases::Case c = cases::parse_case("preset = \"steel-string acoustic\"\n[found]\nbow = \"1 mm\"\n"
                                    "twist = \"0.4 deg\"\n[readings]\nfret_heights = \"5: -4 "
                                    "thou, 1 treble: -8 thou, 8: -10 thou\"\nover_bridge = \"-5 "
                                    "mm\"\n[schedule]\nwarm_free = true\nplay = \"1 year\"\n",
                                    "full.toml");
  c.board_glue.kind.reset();
  return c;
}
} // namespace

TEST(BothUnits, StandBesideWornFretsNeckAngleFreeWarmingAndMonthsOfPlay)
{
  const cases::Case c = a_full_case();
  solver::PlanReport report = tests::invented_report(c, Verdict::with_cautions);
  report.verdict.join(solver::refuse_before(c, materials::tables()));
  const std::string text = in_one_line(solver::plan_text(report));
  for (const char *held : {"Frets against the level ones: fret 1 bass",
                           "Neck angle:", "Warmed free, read again cold", "Lived with afterwards"})
    EXPECT_THAT(text, HasSubstr(held));
  EXPECT_THAT(bare_numbers(text), IsEmpty());
}

TEST(BothUnits, StandInWhatSimulateAndCheckPrint)
{
  const cases::Case c = a_full_case();
  const solver::PlanReport report = tests::invented_report(c, Verdict::do_it);
  solver::HeatReading warm;
  warm.probe = 321;
  warm.moisture = solver::MoistureReading{};
  const std::string text =
      solver::history_text(c, report.main_column().history, {}, [&](double) { return warm; });
  EXPECT_THAT(text, HasSubstr("cord at most"));
  EXPECT_THAT(bare_numbers(text), IsEmpty());
  EXPECT_THAT(solver::case_in_short(c), HasSubstr("neck angle"));
  EXPECT_THAT(bare_numbers(solver::case_in_short(c)), IsEmpty());
}

// The other side draws the headstock down by 16.2 mm: the cord that hangs would just be taut there.
TEST(PlanText, ACordThatHangsSlackIsNotToBeTakenUp)
{
  cases::Case c = cases::preset_case("classical");
  c.board_glue.kind = "white PVA";
  solver::PlanReport report = tests::invented_report(c, Verdict::do_it);
  const std::string taut = in_one_line(solver::plan_text(report));
  EXPECT_THAT(taut, HasSubstr("treble cord take up"));
  for (solver::StepRecord &step : report.columns[0].history.steps) {
    step.take_up[1] = 16.2e-3;
    step.slack[1] = c.phases.at(step.phase).cords;
    step.forces.cord[1] = 0;
  }
  const std::string text = in_one_line(solver::plan_text(report));
  EXPECT_THAT(text, HasSubstr("treble cord hangs slack"));
  EXPECT_THAT(text, HasSubstr("bass cord take up"));
  EXPECT_THAT(text, Not(HasSubstr("16.2 mm")));
  EXPECT_THAT(bare_numbers(text), IsEmpty());
  const auto plan = nlohmann::json::parse(solver::plan_json(report, {}));
  const auto &start = plan.at("columns").at(0).at("phases").at(0).at("at_start");
  EXPECT_TRUE(start.at("slack").at("treble").get<bool>());
  EXPECT_EQ(start.at("take_up_change_m").at("treble").get<double>(), 0);
}

// Posts in line pull on one side: nothing speaks of the other.
TEST(PlanText, PostsInLineAreNotCalledOneCordASide)
{
  cases::Case c = a_case();
  c.bench.device = cases::Device::posts;
  const std::string text =
      in_one_line(solver::plan_text(tests::invented_report(c, Verdict::do_it)));
  EXPECT_THAT(text, HasSubstr("Cords on one side, from bass post 3"));
  EXPECT_THAT(text, Not(HasSubstr("treble cord")));
  EXPECT_THAT(text, Not(HasSubstr("cord a side")));
}

// One history is told, that of the middle line, also where the glue is not known.
TEST(PlanJson, HoldsSlipShearAndStrengthOfEachStage)
{
  cases::Case c = a_case();
  for (const bool known : {true, false}) {
    if (!known)
      c.board_glue.kind.reset();
    const auto plan = nlohmann::json::parse(tests::invented_plan(c, Verdict::do_it));
    ASSERT_EQ(plan.at("columns").size(), 1u);
    EXPECT_EQ(plan.at("columns").at(0).at("line_speed"), "middle");
    EXPECT_FALSE(plan.at("columns").at(0).contains("stages")) << "each stage stands in one place";
    for (const auto &stage : plan.at("stages")) {
      EXPECT_EQ(stage.at("glue_lines").size(), 2u);
      EXPECT_TRUE(stage.at("glue_lines").at(0).contains("shear_body_end_10_mm_Pa"));
      EXPECT_FALSE(stage.at("use_of_strength").empty());
    }
  }
}

// The invented phases of play go from 0.127 mm at their start to 0.193 mm at their end.
TEST(PlanJson, HoldsTheExtremesOfTheMonthsOfPlayWithTheirMonths)
{
  const cases::Case c = a_full_case();
  const auto plan = nlohmann::json::parse(tests::invented_plan(c, Verdict::do_it));
  const auto &play = plan.at("months_of_play");
  ASSERT_EQ(play.size(), 1u);
  const auto &least = play.at(0).at("least_bow"), &most = play.at(0).at("most_bow");
  EXPECT_LT(least.at("bow_centre_m").get<double>(), most.at("bow_centre_m").get<double>());
  EXPECT_EQ(least.at("month"), "january");
  EXPECT_GT(most.at("after_release_s").get<double>(), 300. * 86400);
}

TEST(PlanJson, TellsTheSurfaceAndWhatTheFretsMake)
{
  const cases::Case c = a_full_case();
  const auto plan = nlohmann::json::parse(tests::invented_plan(c, Verdict::do_it));
  const auto &found = plan.at("found");
  EXPECT_EQ(found.at("edge_on"), "frets");
  EXPECT_EQ(found.at("fret_heights").size(), 3u);
  const double frets = found.at("of_the_frets").at("bow_centre_m").get<double>(),
               wood = found.at("of_the_wood").at("bow_centre_m").get<double>();
  EXPECT_NEAR(frets + wood, 1e-3, 1e-12);
  EXPECT_TRUE(found.at("over_bridge").at("angle_is_wrong").get<bool>());
  const auto on_wood = nlohmann::json::parse(tests::invented_plan(
      [&] {
        cases::Case other = c;
        other.readings.edge_on = cases::EdgeOn::wood;
        return other;
      }(),
      Verdict::do_it));
  EXPECT_EQ(on_wood.at("found").at("edge"), "notched straightedge on the wood");
  EXPECT_EQ(on_wood.at("found").at("of_the_frets").at("bow_centre_m").get<double>(), 0);
}

TEST(BothUnits, StandInCautionsOfEveryFinishAndBinding)
{
  cases::Case c = a_case();
  for (int finish = 0; finish <= int(cases::Finish::unknown); ++finish)
    for (int binding = 0; binding <= int(cases::Binding::unknown); ++binding) {
      c.finish = cases::Finish(finish);
      c.binding = cases::Binding(binding);
      const Verdict v = solver::refuse_before(c, materials::tables());
      EXPECT_THAT(bare_numbers(all_of(v.reasons) + all_of(v.cautions) + all_of(v.alternatives) +
                               all_of(solver::standing_cautions(c)) +
                               all_of(solver::card_cautions(c)) + all_of(solver::stop_signs(c))),
                  IsEmpty())
          << finish << " " << binding;
    }
}

// A seized rod of unknown pull, a rod at its stop, a stop block.
TEST(BothUnits, StandInCautionsOfRodAndBlock)
{
  cases::Case c = a_case();
  for (cases::Phase &phase : c.phases)
    phase.block = phase.cords;
  for (const auto state : {cases::RodState::seized, cases::RodState::at_its_stop})
    for (const auto target : {cases::RodState::slack, cases::RodState::set}) {
      c.neck.rod.state = state;
      c.target.rod = target;
      if (state == cases::RodState::seized)
        c.neck.rod.force.reset();
      else
        c.neck.rod.force = 700.;
      const auto cautions = solver::set_up_cautions(c);
      EXPECT_THAT(cautions, testing::SizeIs(3));
      EXPECT_THAT(bare_numbers(all_of(cautions)), IsEmpty());
    }
}

// 8.130 mm = 320.1 thou, 5.020 mm = 197.6 thou. The block is set cold, and again when hot.
TEST(PlanText, TellsTheHeightOfAStopBlockColdAndHotAndWhatItDoesNotDo)
{
  cases::Case c = a_case();
  for (cases::Phase &phase : c.phases)
    phase.block = phase.cords;
  solver::PlanReport report = tests::invented_report(c, Verdict::with_cautions);
  for (auto &end : report.columns[0].history.phases)
    if (c.phases[end.phase].pull.kind == cases::Pull::Kind::to_reading)
      end.block_below = c.phases[end.phase].pull.decides ? 8.13e-3 : 5.02e-3;
  const std::string text = in_one_line(solver::plan_text(report));
  for (const char *height : {"8.13 mm (320 thou)", "5.02 mm (198 thou)"}) {
    EXPECT_THAT(text,
                HasSubstr(std::string("its top ") + height + " below where the headstock rests"));
    EXPECT_THAT(
        text, HasSubstr(std::string("Stop block ") + height + " below where the headstock rests"));
  }
  EXPECT_THAT(text, HasSubstr("sets the bow and not the twist"));
  EXPECT_THAT(text, Not(HasSubstr("leave cords and block as they are")));
  EXPECT_THAT(bare_numbers(text), IsEmpty());
}

// Where a case lists a hot reading that pulls nothing, the block holds what it was set to cold.
TEST(PlanText, ABlockThatIsOnlyReadHotStaysAsItIs)
{
  cases::Case c = a_case();
  for (cases::Phase &phase : c.phases) {
    phase.block = phase.cords;
    if (phase.kind == cases::PhaseKind::reread)
      phase.pull.kind = cases::Pull::Kind::none;
  }
  const std::string text =
      in_one_line(solver::plan_text(tests::invented_report(c, Verdict::with_cautions)));
  EXPECT_THAT(text, HasSubstr("leave cords and block as they are"));
}

TEST(PlanText, SaysWhatIsDoneWithTheRodWhenItIsStrungUp)
{
  cases::Case c = a_case();
  const auto text = [&](cases::RodKind kind, cases::RodState state, cases::RodState then) {
    c.neck.rod.kind = kind;
    c.neck.rod.state = state;
    for (cases::Phase &phase : c.phases)
      if (phase.strings)
        phase.rod = then;
    return in_one_line(solver::plan_text(tests::invented_report(c, Verdict::do_it)));
  };
  using cases::RodKind;
  using cases::RodState;
  c.neck.rod.force = 600.;
  EXPECT_THAT(text(RodKind::single_action, RodState::slack, RodState::set),
              HasSubstr("rod set to about 600 N (61.2 kgf, 134.9 lbf)."));
  EXPECT_THAT(text(RodKind::two_way, RodState::slack, RodState::set),
              HasSubstr("bows the neck back."));
  c.neck.rod.bows = cases::RodBows::forward;
  EXPECT_THAT(text(RodKind::two_way, RodState::slack, RodState::set),
              HasSubstr("bows the neck forward."));
  EXPECT_THAT(text(RodKind::single_action, RodState::at_its_stop, RodState::set),
              HasSubstr("which is its stop: no tighter."));
  EXPECT_THAT(text(RodKind::single_action, RodState::seized, RodState::seized),
              HasSubstr("rod seized as it is."));
  EXPECT_THAT(text(RodKind::single_action, RodState::slack, RodState::slack),
              HasSubstr("rod slack."));
}

// 30 N/mm = 30000 N/m; 1 lbf/in = 4.4482216 N / 0.0254 m = 175.127 N/m; 171.3.
TEST(BothUnits, StiffnessOfACord)
{
  EXPECT_EQ(solver::stiffness_in_words(30000), "30 N/mm (171 lbf/in)");
}

TEST(PlanText, ReadsFretByFretAtReleaseAndAtTheDateAndStageByStage)
{
  const cases::Case c = a_case();
  const std::string text =
      in_one_line(solver::plan_text(tests::invented_report(c, Verdict::do_it)));
  EXPECT_THAT(text, HasSubstr("Right after it should read: fret bass centre treble 3"));
  EXPECT_THAT(text, HasSubstr("the plan aims at. Fret by fret: fret bass centre treble 3"));
  EXPECT_THAT(text, HasSubstr("String held down at frets 1 and"));
  EXPECT_THAT(text, HasSubstr("STAGE BY STAGE"));
  EXPECT_THAT(text, HasSubstr("numbers that they have in the tables: 1 as found 2"));
  // The invented lines: 0.117 mm = 4.6 thou, -0.086 mm = -3.4 thou; 0.213 and -0.148 MPa.
  EXPECT_THAT(text, HasSubstr("1 +0.12 / +4.6 -0.09 / -3.4 0.213 / -0.148"));
  EXPECT_THAT(text, HasSubstr("scarf line 0.00 mm (+0.2 thou) at the nut end"));
  EXPECT_THAT(text, HasSubstr("shaft 17 17"));
}

TEST(PlanJson, HoldsTheReadingsOfEachStage)
{
  const cases::Case c = a_case();
  const auto plan = nlohmann::json::parse(tests::invented_plan(c, Verdict::do_it));
  ASSERT_GE(plan.at("stages").size(), 6u);
  const auto &found = plan.at("stages").at(0);
  EXPECT_EQ(found.at("name"), "as found");
  // A parabola of 0.653 mm over frets 1 and join is forward: the edge rests, and the gap at each
  // fret is the bow there.
  EXPECT_EQ(found.at("straightedge").at("centre").at("lies"), "rests");
  for (const auto &fret : found.at("by_fret"))
    EXPECT_NEAR(fret.at("gap_centre_m").get<double>(), fret.at("bow_centre_m").get<double>(),
                1e-12);
  EXPECT_NEAR(found.at("winding_sticks").at("at_the_tips_m").get<double>(),
              0.3 * std::sin(found.at("reading").at("twist_rad").get<double>()), 1e-12);
  const auto &board = found.at("glue_lines").at(0);
  EXPECT_EQ(board.at("line"), "board");
  EXPECT_NEAR(board.at("slip_body_end_m").get<double>(), -0.086e-3, 1e-12);
  EXPECT_NEAR(board.at("shear_nut_end_10_mm_Pa").get<double>(), 0.213e6, 1e-6);
  // Cold only straight; the overbend is pulled hot.
  const auto clamp = plan.at("stages").at(2);
  EXPECT_EQ(clamp.at("name"), "in the clamp, hot, set again");
  EXPECT_EQ(clamp.at("straightedge").at("bass").at("lies"), "rocks");
  EXPECT_GT(clamp.at("straightedge").at("bass").at("end_gap_m").get<double>(), 1e-3);
  EXPECT_FALSE(clamp.at("strings_on").get<bool>());
  EXPECT_EQ(plan.at("stages").back().at("name"), "strung, 7 days after release");
  EXPECT_TRUE(plan.at("stages").back().at("strings_on").get<bool>());
  EXPECT_TRUE(plan.at("stages").back().at("string_held_down").contains("treble"));
}

// `--full` prints it all, and it is read in a window of 80 columns.
TEST(PlanText, FitsATerminalWithAllItsTables)
{
  for (const cases::Case &c : {a_full_case(), tests::two_passes()}) {
    std::istringstream lines(solver::plan_text(tests::invented_report(c, Verdict::do_it)));
    for (std::string line; std::getline(lines, line);)
      EXPECT_LE(line.size(), 80u) << line;
  }
}

// What the terminal shows: the answer and the job in short, in a window of 80 columns; the tables
// stay in the whole text.
TEST(PlanInShort, FitsATerminalAndLeavesTheTablesOut)
{
  for (const Verdict::Kind kind : {Verdict::do_it, Verdict::do_not}) {
    const solver::PlanReport report = tests::invented_report(a_full_case(), kind);
    const std::string text = solver::plan_in_short(report);
    std::istringstream lines(text);
    for (std::string line; std::getline(lines, line);)
      EXPECT_LE(line.size(), 80u) << line;
    EXPECT_THAT(text, HasSubstr("VERDICT: "));
    EXPECT_THAT(text, HasSubstr("CAUTIONS"));
    EXPECT_EQ(text.find("IN SHORT") == std::string::npos, kind == Verdict::do_not);
    EXPECT_EQ(text.find("WHAT IS WRONG") == std::string::npos, kind == Verdict::do_it);
    for (const char *table : {"WHAT TO DO", "Glue lines:", "Share of strength in use"})
      EXPECT_THAT(text, Not(HasSubstr(table)));
  }
}
