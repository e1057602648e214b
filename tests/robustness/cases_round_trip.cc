// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/declare/declarations.h"
#include "cases/declare/presets.h"
#include "cases/read/read_case.h"
#include "cases/show/to_text.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <random>
#include <sstream>

// What is accepted, printed and read again is identical, and nothing but CaseError is ever thrown.
namespace
{
using namespace overbend::cases;
using Generator = std::mt19937_64;

std::size_t pick(std::size_t count, Generator &generator)
{
  return std::uniform_int_distribution<std::size_t>(0, count - 1)(generator);
}

template <class Container>
const typename Container::value_type &one_of(const Container &all, Generator &generator)
{
  return all[pick(all.size(), generator)];
}

// A value within its range; contradictions with others are left to chance.
std::string random_value(const Declaration &declaration, Generator &generator)
{
  std::uniform_real_distribution<double> real(declaration.low, declaration.high);
  switch (declaration.kind) {
  case Kind::text:
  case Kind::name:
    return one_of(
        std::vector<std::string>{"oak", "x \"y\" \\z", "\u00e4\u00f6", "two\twords", "true", "22"},
        generator);
  case Kind::choice:
    return one_of(declaration.words, generator);
  case Kind::flag:
    return pick(2, generator) == 0 ? "true" : "false";
  case Kind::count:
  case Kind::fret:
    return std::to_string(static_cast<int>(real(generator)));
  case Kind::grain:
    return one_of(std::vector<std::string>{"flat", "rift", "quarter", "17.3 deg"}, generator);
  case Kind::radius:
    return one_of(std::vector<std::string>{"flat", "12 in", "305 mm"}, generator);
  case Kind::frets:
    return one_of(std::vector<std::string>{"level", "5: -2 thou", "1-4: -0.05 mm, 12: 3 thou",
                                           "7 treble: -0.1 mm", "3 to 6 bass: 0.1 mm, 5: 0 mm"},
                  generator);
  case Kind::posts:
    return one_of(
        std::vector<std::string>{"middle", "bass 2, treble 2", "bass 1, bass 2, treble 3"},
        generator);
  case Kind::month:
    return one_of(std::vector<std::string>{"20 degC, 45 %", "68 degF, 31 %", "19.7 degC, 60 %"},
                  generator);
  case Kind::position:
    return pick(2, generator) == 0 ? "fret " + std::to_string(1 + pick(16, generator))
                                   : exact_text(real(generator), declaration.dimension);
  case Kind::quantity:
    break;
  }
  if (declaration.may_be_unknown() && pick(4, generator) == 0)
    return "unknown";
  return exact_text(real(generator), declaration.dimension);
}

// Phases in an order that makes sense, some left out, with a few random overrides.
std::string random_phases(Generator &generator)
{
  std::string text;
  for (const char *kind : {"store", "warm free", "cool", "condition", "clamp", "heat", "reread",
                           "hold", "cool", "release", "rest", "string up", "play"}) {
    if (pick(5, generator) == 0)
      continue;
    text += std::string("[[phase]]\nkind = \"") + kind + "\"\nduration = \"3 days\"\n";
    const Declaration &declaration = one_of(declarations(), generator);
    if (declaration.section == "phase" && declaration.key != "kind" &&
        declaration.key != "duration")
      text += declaration.key + " = " +
              toml_value(declaration, random_value(declaration, generator)) + "\n";
  }
  return text;
}

// A case with a few random overrides of one preset.
std::string random_case(Generator &generator)
{
  std::vector<std::string> lines(section_notes().size());
  const int overrides = 1 + static_cast<int>(pick(6, generator));
  std::vector<std::string> taken = {"preset", "found.bow"};
  for (int i = 0; i < overrides; ++i) {
    const Declaration &declaration = one_of(declarations(), generator);
    const bool again = std::find(taken.begin(), taken.end(), declaration.name()) != taken.end();
    if (again || is_repeated(declaration.section))
      continue;
    taken.push_back(declaration.name());
    for (std::size_t s = 0; s < lines.size(); ++s)
      if (section_notes()[s].name == declaration.section)
        lines[s] += declaration.key + " = " +
                    toml_value(declaration, random_value(declaration, generator)) + "\n";
  }
  std::string text = "preset = \"" + one_of(presets(), generator).name + "\"\n";
  for (std::size_t s = 0; s < lines.size(); ++s) {
    const std::string &name = section_notes()[s].name;
    const std::string bow = name == "found" ? "bow = \"0.9 mm\"\n" : "";
    if (!lines[s].empty() || !bow.empty())
      text += (name.empty() ? "" : "[" + name + "]\n") + bow + lines[s];
  }
  return text;
}

void expect_round_trip(const Case &first)
{
  const std::string printed = to_text(first);
  const Case second = parse_case(printed, "printed");
  EXPECT_EQ(to_text(second), printed);
}

TEST(RoundTrip, RandomOverridesComeBackIdentical)
{
  Generator generator(1967);
  int accepted = 0;
  for (int i = 0; i < 2000; ++i) {
    const std::string text = random_case(generator);
    SCOPED_TRACE(text);
    try {
      const Case first = parse_case(text, "random");
      ++accepted;
      expect_round_trip(first);
    } catch (const CaseError &error) {
      ASSERT_EQ(error.file, "random") << error.what(); // the printed case must not be refused
    }
    if (testing::Test::HasFailure())
      return;
  }
  EXPECT_GT(accepted, 400);
}

TEST(RoundTrip, RandomPhasesComeBackIdentical)
{
  Generator generator(1859);
  int accepted = 0;
  for (int i = 0; i < 1000; ++i) {
    const std::string text = "preset = \"" + one_of(presets(), generator).name +
                             "\"\n[found]\nbow = \"0.9 mm\"\n" + random_phases(generator);
    SCOPED_TRACE(text);
    try {
      const Case first = parse_case(text, "random");
      ++accepted;
      expect_round_trip(first);
    } catch (const CaseError &error) {
      ASSERT_EQ(error.file, "random") << error.what();
    }
    if (testing::Test::HasFailure())
      return;
  }
  EXPECT_GT(accepted, 100);
}

TEST(RoundTrip, ShippedCasesAndPresetsComeBackIdentical)
{
  for (const Preset &preset : presets())
    expect_round_trip(preset_case(preset.name));
  for (const char *name : {"demonstration", "scarfed-neck", "hot-van", "thirty-years", "celluloid"})
    expect_round_trip(read_case(OVERBEND_SOURCE_DIR "/cases/" + std::string(name) + ".toml"));
}

// to_text would hide a member that no declaration knows; compare some that matter directly.
TEST(RoundTrip, MembersAreEqualToTheLastBit)
{
  const Case first = read_case(OVERBEND_SOURCE_DIR "/cases/scarfed-neck.toml");
  const Case second = parse_case(to_text(first), "printed");
  EXPECT_EQ(first.found.twist, second.found.twist);
  EXPECT_EQ(first.bench.cradle_x, second.bench.cradle_x);
  EXPECT_EQ(first.heater.to, second.heater.to);
  EXPECT_EQ(first.neck.headstock.angle, second.neck.headstock.angle);
  EXPECT_EQ(first.target.twist_tolerance, second.target.twist_tolerance);
  ASSERT_EQ(first.phases.size(), second.phases.size());
  for (std::size_t i = 0; i < first.phases.size(); ++i) {
    EXPECT_EQ(first.phases[i].name, second.phases[i].name);
    EXPECT_EQ(first.phases[i].duration, second.phases[i].duration);
    EXPECT_EQ(first.phases[i].bar_temperature, second.phases[i].bar_temperature);
    EXPECT_EQ(first.phases[i].air.temperature, second.phases[i].air.temperature);
    EXPECT_EQ(first.phases[i].rod, second.phases[i].rod);
    EXPECT_EQ(first.phases[i].cords, second.phases[i].cords);
    EXPECT_EQ(first.phases[i].pull.kind, second.phases[i].pull.kind);
  }
}

// Bytes changed, dropped, doubled and swapped in a valid file: it is read or refused in words.
TEST(RoundTrip, DamagedFilesNeverEscapeAsAnythingElse)
{
  std::ifstream stream(OVERBEND_SOURCE_DIR "/cases/demonstration.toml");
  std::stringstream contents;
  contents << stream.rdbuf();
  const std::string whole = contents.str();
  ASSERT_FALSE(whole.empty());
  Generator generator(42);
  int refused = 0;
  for (int i = 0; i < 5000; ++i) {
    std::string text = whole;
    for (std::size_t n = 1 + pick(4, generator); n > 0; --n) {
      const std::size_t at = pick(text.size(), generator);
      switch (pick(4, generator)) {
      case 0:
        text[at] = static_cast<char>(pick(256, generator));
        break;
      case 1:
        text.erase(at, 1 + pick(8, generator));
        break;
      case 2:
        text.insert(at, text.substr(pick(text.size(), generator), pick(40, generator)));
        break;
      default:
        std::swap(text[at], text[pick(text.size(), generator)]);
      }
    }
    try {
      expect_round_trip(parse_case(text, "damaged"));
    } catch (const CaseError &error) {
      ++refused;
      ASSERT_EQ(error.file, "damaged") << error.what() << "\n" << text;
    }
  }
  EXPECT_GT(refused, 500);
}
} // namespace
