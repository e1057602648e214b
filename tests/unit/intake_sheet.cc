// SPDX-License-Identifier: GPL-3.0-or-later
#include "viz/sheet/intake_sheet.h"
#include "cases/intake/bench_order.h"
#include "cases/read/read_case.h"
#include "tests/both_units.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <regex>
#include <set>

// The sheet holds what the declarations declare, and nothing from outside.
namespace
{
using namespace overbend::cases;
using overbend::viz::intake_sheet;
using overbend::viz::SheetExtent;
using ::testing::HasSubstr;
using ::testing::Not;

TEST(IntakeSheet, HoldsEveryDeclaredKeyOnceButThoseOfPhases)
{
  const std::string sheet = intake_sheet("", SheetExtent::all);
  const std::regex key("data-key=\"([^\"]*)\"");
  std::multiset<std::string> held, declared;
  for (std::sregex_iterator at(sheet.begin(), sheet.end(), key), end; at != end; ++at)
    held.insert((*at)[1]);
  for (const Declaration &declaration : declarations())
    if (!is_repeated(declaration.section))
      declared.insert(declaration.name());
  EXPECT_EQ(held, declared);
}

TEST(IntakeSheet, NamesItsStyleInThePolicyAndNothingElse)
{
  const std::string sheet = intake_sheet("", SheetExtent::all);
  EXPECT_THAT(sheet, HasSubstr("default-src 'none'; "));
  EXPECT_THAT(sheet, HasSubstr("style-src 'sha256-"));
  for (const char *outside : {"<script", "http:", "https:", "url(", "@import", " style=", "<img"})
    EXPECT_THAT(sheet, Not(HasSubstr(outside)));
}

TEST(IntakeSheet, HasAWordToTickForEachChoiceAndUnknownWhereItIsAccepted)
{
  const std::string sheet = intake_sheet("", SheetExtent::all);
  const auto field = [&](const std::string &name) {
    const std::size_t from = sheet.find("data-key=\"" + name + "\"");
    return sheet.substr(from, sheet.find("</div>", from) - from);
  };
  for (const Declaration &declaration : declarations()) {
    if (is_repeated(declaration.section))
      continue;
    const std::string html = field(declaration.name());
    if (declaration.kind == Kind::choice) {
      for (const std::string &word : declaration.words)
        EXPECT_NE(html.find("tick\">" + word + "</span>"),
                  html.find("tick usual\">" + word + "</span>"))
            << declaration.name() << " " << word;
    }
    const bool offered = html.find(">unknown</span>") != std::string::npos;
    EXPECT_EQ(offered, declaration.may_be_unknown()) << declaration.name();
  }
}

TEST(IntakeSheet, HasTheGridForGapsAndTheCautions)
{
  const std::string sheet = intake_sheet("electric", SheetExtent::all);
  for (const char *line : {"bass", "centre", "treble"})
    EXPECT_THAT(sheet, HasSubstr("<th scope=\"row\">" + std::string(line)));
  EXPECT_THAT(sheet, HasSubstr("Winding sticks"));
  for (const std::string &caution : intake_cautions())
    EXPECT_THAT(sheet, HasSubstr(caution));
  EXPECT_THAT(sheet, HasSubstr("<span class=\"usual\">648 mm (25.51 in)</span>"));
  EXPECT_THAT(intake_sheet("", SheetExtent::all),
              Not(HasSubstr("<span class=\"usual\">648 mm (25.51 in)</span>")));
}

TEST(IntakeSheet, HasBothUnitsBesideEveryNumber)
{
  for (const char *preset :
       {"", "electric", "steel-string acoustic", "classical", "long-scale bass"})
    EXPECT_THAT(overbend::tests::bare_numbers(
                    overbend::tests::text_of_html(intake_sheet(preset, SheetExtent::all))),
                ::testing::IsEmpty())
        << preset;
}

TEST(IntakeSheet, HoldsWhatAPlanHangsOnUnlessAllIsAskedFor)
{
  const std::string sheet = intake_sheet("electric");
  for (const Declaration &declaration : declarations()) {
    if (is_repeated(declaration.section))
      continue;
    const std::string key = "data-key=\"" + declaration.name() + "\"";
    EXPECT_EQ(sheet.find(key) != std::string::npos, is_needed(declaration)) << key;
  }
  EXPECT_THAT(sheet, HasSubstr("Winding sticks"));
  EXPECT_THAT(sheet, HasSubstr("overbend sheet --all"));
}

TEST(IntakeSheet, RefusesAnUnknownPreset)
{
  EXPECT_THROW(intake_sheet("electrik"), CaseError);
}
} // namespace
