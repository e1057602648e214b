// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/unit/intake_helpers.h"

#include <gtest/gtest.h>

#include <random>

// Whatever is typed into the questionnaire: it does not fall over, and a text that is not marked
// as unfinished is a complete case.
namespace
{
using namespace overbend::cases;
using Generator = std::mt19937_64;

std::size_t pick(std::size_t count, Generator &generator)
{
  return std::uniform_int_distribution<std::size_t>(0, count - 1)(generator);
}

// Any bytes but the end of a line.
std::string noise(Generator &generator)
{
  std::string text(pick(30, generator), ' ');
  for (char &letter : text)
    do
      letter = static_cast<char>(pick(256, generator));
    while (letter == '\n');
  return text;
}

// Something a user might type, right or wrong for the question at hand.
std::string likely(Generator &generator)
{
  static const std::vector<std::string> lines = {"",
                                                 "skip",
                                                 "back",
                                                 "next",
                                                 "end",
                                                 "more",
                                                 "write",
                                                 "help",
                                                 "?",
                                                 "unknown",
                                                 "go found",
                                                 "go found.bow",
                                                 "go neck.frets",
                                                 "go nothing",
                                                 "1 0",
                                                 "7 0.4 mm",
                                                 "16 0",
                                                 "fret 9 20 thou",
                                                 "99 1 mm",
                                                 "20 mm",
                                                 "0.4 in",
                                                 "5",
                                                 "1/2",
                                                 "-0.3 mm",
                                                 "1e308 mm",
                                                 "nan mm",
                                                 "48 degC",
                                                 "400 degF",
                                                 "50 %",
                                                 "2 h",
                                                 "yes",
                                                 "no",
                                                 "scarf",
                                                 "flat",
                                                 "join",
                                                 "fret 7",
                                                 "hot strung",
                                                 "\"skip\"",
                                                 "\"a \\ b\"",
                                                 "1 mm over 0 mm",
                                                 "1 mm over 40 mm",
                                                 "electric",
                                                 "none",
                                                 "mm",
                                                 "thou",
                                                 "20 degC, 45 %",
                                                 "white PVA",
                                                 "UNKNOWN",
                                                 "[found]",
                                                 "x = \"y\"",
                                                 "# remark",
                                                 std::string(5000, '7'),
                                                 "\xff\xfe",
                                                 std::string("a\0b", 3)};
  return lines[pick(lines.size(), generator)];
}

// True if the text is a complete case, names of the tables included.
bool is_good(const std::string &text)
{
  try {
    check_names(parse_case(text, "typed"), overbend::tests::some_names());
    return true;
  } catch (const CaseError &) {
    return false;
  }
}

TEST(IntakeKeystrokes, NeitherBreakTheMachineNorMakeABadFileThatLooksGood)
{
  Generator generator(20240611);
  int good = 0, unfinished = 0;
  for (int round = 0; round < 150; ++round) {
    Intake intake(overbend::tests::some_names());
    if (pick(3, generator) > 0)
      intake.choose_preset("electric");
    for (int i = 0; i < 60; ++i) {
      ASSERT_NO_THROW(intake.prompt());
      ASSERT_NO_THROW(intake.reply(pick(5, generator) == 0 ? noise(generator) : likely(generator)));
    }
    const std::string text = intake.answers().case_text();
    const bool marked = text.rfind("# UNFINISHED", 0) == 0;
    ASSERT_EQ(is_good(text), !marked) << text;
    for (const char *bow : {"bow = \"nan", "bow = \"-nan"})
      ASSERT_EQ(text.find(bow), std::string::npos) << text;
    // Even an unfinished one can be gone on with.
    if (!intake.answers().empty()) {
      Intake again(overbend::tests::some_names());
      ASSERT_NO_THROW(again.resume(text, "typed")) << text;
    }
    ++(marked ? unfinished : good);
  }
  // Both kinds came up, or the test says nothing.
  EXPECT_GT(good, 5);
  EXPECT_GT(unfinished, 5);
}

TEST(IntakeKeystrokes, EachKindOfQuestionTakesAnyLine)
{
  Generator generator(7);
  for (const BenchSection &section : bench_order())
    for (const Declaration *field : section.fields) {
      IntakeAnswers answers(overbend::tests::some_names());
      for (int i = 0; i < 12; ++i)
        try {
          const std::string taken = answers.take(*field, likely(generator));
          EXPECT_EQ(answers.given(*field), taken);
        } catch (const UnitError &) {
        }
    }
}
} // namespace
