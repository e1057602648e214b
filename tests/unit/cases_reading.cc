// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/declare/presets.h"
#include "cases/read/read_case.h"
#include "cases/read/set_up_open.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>
#include <filesystem>

namespace
{
using namespace overbend::cases;

Case electric(const std::string &more)
{
  return parse_case("preset = \"electric\"\n[found]\nbow = \"1 mm\"\n" + more, "test.toml");
}

// Equal-tempered rule: fret 12 halves the string.
TEST(Reading, FretsFollowTheEqualTemperedRule)
{
  EXPECT_DOUBLE_EQ(fret_position(0.648, 0), 0);
  EXPECT_NEAR(fret_position(0.648, 12), 0.324, 1e-15);
  EXPECT_NEAR(fret_position(0.648, 24), 0.486, 1e-15);
}

TEST(Reading, ThreeLinesMakeACase)
{
  const Case result = electric("");
  EXPECT_EQ(result.preset, "electric");
  EXPECT_DOUBLE_EQ(result.neck.scale_length, 0.648);
  EXPECT_DOUBLE_EQ(result.found.bow_centre, 1e-3);
  EXPECT_DOUBLE_EQ(result.found.bow_bass, 1e-3); // not given: as the centre
  EXPECT_FALSE(result.found.twist.has_value());  // not given: unknown
  EXPECT_FALSE(result.board_glue.kind.has_value());
  EXPECT_EQ(result.finish, Finish::unknown);
  EXPECT_EQ(result.phases.size(), 8u);
}

// Sizes of common practice (reference sizes of the trade): scale, frets, join.
TEST(Reading, EveryPresetIsComplete)
{
  const struct
  {
    const char *name;
    double scale;
    int frets, join;
  } expected[] = {{"electric", 0.648, 22, 16},
                  {"steel-string acoustic", 0.645, 20, 14},
                  {"classical", 0.650, 19, 12},
                  {"long-scale bass", 0.864, 20, 16}};
  ASSERT_EQ(presets().size(), std::size(expected));
  for (const auto &preset : expected) {
    const Case result = preset_case(preset.name);
    EXPECT_DOUBLE_EQ(result.neck.scale_length, preset.scale) << preset.name;
    EXPECT_EQ(result.neck.frets, preset.frets) << preset.name;
    EXPECT_EQ(result.neck.join_fret, preset.join) << preset.name;
    EXPECT_GT(result.neck.heel.depth, 0) << preset.name;
    EXPECT_FALSE(result.strings.set.empty()) << preset.name;
    EXPECT_FALSE(result.tuners.kind.empty()) << preset.name;
  }
}

TEST(Reading, StringsSitAboveTheBoardAsFretsMakeThem)
{
  for (const Preset &preset : presets()) {
    const Strings strings = preset_case(preset.name).strings;
    EXPECT_GE(strings.height_at_nut, 1.5e-3) << preset.name;
    EXPECT_LE(strings.height_at_nut, 2.5e-3) << preset.name;
    EXPECT_GE(strings.height_at_join, 3e-3) << preset.name;
    EXPECT_LE(strings.height_at_join, 4e-3) << preset.name;
  }
}

TEST(Reading, TheBowFretIsNearestToHalfWayBetweenTheRestFrets)
{
  for (const Preset &preset : presets()) {
    const Case result = preset_case(preset.name);
    const double scale = result.neck.scale_length;
    const auto distance = [&](int fret) {
      return std::abs(fret_position(scale, fret) -
                      0.5 *
                          (fret_position(scale, 1) + fret_position(scale, result.neck.join_fret)));
    };
    const int fret = result.found.bow_fret;
    EXPECT_EQ(result.found.rest_fret_b, result.neck.join_fret);
    EXPECT_LE(distance(fret), distance(fret - 1)) << preset.name;
    EXPECT_LE(distance(fret), distance(fret + 1)) << preset.name;
  }
}

TEST(Reading, EveryValueCanBeOverridden)
{
  const Case result = electric("twist = \"0.6 deg\"\nbow_bass = \"45 thou\"\n"
                               "bow_fret = 8\nrest_fret_near_body = 17\n"
                               "[neck]\nscale_length = \"25 1/2 in\"\njoin_fret = 17\n"
                               "[heel]\npocket = \"65 mm\"\n"
                               "[board]\nradius = \"flat\"\n[room]\nhumidity = \"40 %\"\n"
                               "[glue]\nboard = \"white PVA\"\n");
  EXPECT_DOUBLE_EQ(result.neck.scale_length, 0.6477);
  EXPECT_DOUBLE_EQ(*result.found.twist, 0.6 * std::acos(-1.0) / 180);
  EXPECT_DOUBLE_EQ(result.found.bow_bass, 45 * 25.4e-6);
  EXPECT_EQ(result.found.bow_fret, 8);
  EXPECT_EQ(result.found.rest_fret_b, 17);
  EXPECT_TRUE(std::isinf(result.neck.board_radius));
  EXPECT_DOUBLE_EQ(result.room.humidity, 0.4);
  EXPECT_EQ(result.board_glue.kind, "white PVA");
}

TEST(Reading, PlacesAtFretsFollowTheScale)
{
  const Case result = electric("[neck]\nscale_length = \"628 mm\"\n[bench]\ncradle = \"fret 7.5\"\n"
                               "[probe]\nposition = \"180 mm\"\n");
  EXPECT_DOUBLE_EQ(result.bench.cradle_x, 0.628 * (1 - std::exp2(-7.5 / 12)));
  EXPECT_DOUBLE_EQ(result.probe.x, 0.18);
  EXPECT_DOUBLE_EQ(result.heater.to, fret_position(0.628, 16)); // default: the body join
}

TEST(Reading, GrainInWordsOrDegrees)
{
  const double right_angle = std::acos(0.0);
  EXPECT_DOUBLE_EQ(electric("[shaft]\ngrain = \"Quarter\"").neck.shaft.grain.ring_angle,
                   right_angle);
  EXPECT_DOUBLE_EQ(electric("[shaft]\ngrain = \"rift\"").neck.shaft.grain.ring_angle,
                   right_angle / 2);
  EXPECT_DOUBLE_EQ(electric("[shaft]\ngrain = \"30 deg\"").neck.shaft.grain.ring_angle,
                   right_angle / 3);
  EXPECT_DOUBLE_EQ(
      electric("[shaft]\nrun_out_across = \"1 in 20\"").neck.shaft.grain.run_out_across, 0.05);
}

TEST(Reading, WordsMayBeWrittenAsOnePleases)
{
  for (const char *word : {"two-way", "two_way", "Two Way"})
    EXPECT_EQ(electric("[rod]\nkind = \"" + std::string(word) + "\"\nchannel_depth = \"10.5 mm\"\n")
                  .neck.rod.kind,
              RodKind::two_way);
}

TEST(Reading, AnotherKindDropsWhatThePresetSaysAboutItsOwn)
{
  const Case result = electric("[heel]\nkind = \"heel\"\n[rod]\nkind = \"none\"\n"
                               "[headstock]\nkind = \"tilted\"\nangle = \"14 deg\"\n");
  EXPECT_EQ(result.neck.heel.pocket, 0);
  EXPECT_EQ(result.neck.rod.channel_depth, 0);
  EXPECT_EQ(result.neck.headstock.face_step, 0);
  EXPECT_EQ(result.target.rod, RodState::slack);
  EXPECT_EQ(result.neck.headstock.piece.wood, result.neck.shaft.wood);
}

TEST(Reading, UnknownIsAValueWhereTheCaseHasRoomForIt)
{
  const Case result = electric("twist = \"unknown\"\nstrung_bow = \"unknown\"\n"
                               "bow_treble = \"unknown\"\n[glue]\nboard = \"Unknown\"\n"
                               "[finish]\nkind = \"unknown\"\nbinding = \"unknown\"\n");
  EXPECT_FALSE(result.found.twist || result.found.strung_bow || result.board_glue.kind);
  EXPECT_EQ(result.found.bow_treble, result.found.bow_centre);
  EXPECT_THROW(electric("[bench]\ncord_stiffness = \"unknown\"\n"), CaseError);
}

TEST(Reading, LinesAreKept)
{
  const Case result = electric("twist = \"0.1 deg\"\n\n[glue]\nboard = \"white PVA\"\n");
  EXPECT_EQ(line_of(result, "found.twist"), 4);
  EXPECT_EQ(line_of(result, "glue.board"), 7);
  EXPECT_EQ(line_of(result, "glue.scarf"), 6); // not there: its section
  EXPECT_EQ(line_of(result, "room.film"), 1);  // no section either: the preset
  EXPECT_EQ(result.text.substr(0, 20), "preset = \"electric\"\n");
}

TEST(Reading, ErrorsCarryFileLineAndRemedy)
{
  try {
    electric("twist = \"1\"\n");
    FAIL();
  } catch (const CaseError &error) {
    EXPECT_EQ(error.file, "test.toml");
    EXPECT_EQ(error.line, 4);
    EXPECT_THAT(error.what(), testing::StartsWith("test.toml:4: found.twist: \"1\" has no unit; "));
    EXPECT_EQ(std::string(error.what()), "test.toml:4: " + error.problem + "; " + error.remedy);
  }
}

TEST(Reading, TheShippedCasesAreInOrderAndShort)
{
  const std::filesystem::path folder = std::string(OVERBEND_SOURCE_DIR) + "/cases";
  int found = 0;
  for (const auto &entry : std::filesystem::directory_iterator(folder)) {
    if (entry.path().extension() != ".toml")
      continue;
    ++found;
    const Case result = read_case(entry.path().string());
    EXPECT_NE(result.title, "untitled") << entry.path();
    EXPECT_LE(std::count(result.text.begin(), result.text.end(), '\n'), 70) << entry.path();
  }
  EXPECT_EQ(found, 7);
}

// The demonstration is an ordinary job in its shortest sensible words; all else is left to the
// plan.
TEST(Reading, TheDemonstrationIsAShortCaseWithBowAndTwistThatLeavesTheSetUpOpen)
{
  const Case result = read_case(OVERBEND_SOURCE_DIR "/cases/demonstration.toml");
  EXPECT_GT(result.found.bow_centre, 1e-3);
  EXPECT_GT(*result.found.twist, 0);
  EXPECT_LE(result.lines.size(), 20u); // sections and keys
  EXPECT_TRUE(result.left_open.device && result.left_open.hold && result.left_open.wrap &&
              result.left_open.bar_temperature);
  EXPECT_FALSE(fixes_set_up(result));
}

TEST(Reading, TheScarfedNeckHasBowTwistScarfAndTilt)
{
  const Case result = read_case(OVERBEND_SOURCE_DIR "/cases/scarfed-neck.toml");
  EXPECT_DOUBLE_EQ(result.found.bow_centre, 0.5e-3);
  EXPECT_GT(*result.found.twist, 0);
  EXPECT_EQ(result.neck.headstock.kind, HeadstockKind::scarf);
  EXPECT_EQ(result.neck.heel.kind, HeelKind::bolt_on);
  EXPECT_GT(result.neck.headstock.angle, 0);
  EXPECT_EQ(result.tuners.layout, TunerLayout::both_sides);
  EXPECT_EQ(result.board_glue.kind, "white PVA");
}
} // namespace
