// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/declare/declarations.h"
#include "cases/declare/presets.h"
#include "cases/read/read_case.h"
#include "cases/show/manual.h"
#include "cases/show/to_text.h"

#include <gtest/gtest.h>

#include <cctype>
#include <fstream>
#include <set>
#include <sstream>

namespace
{
using namespace overbend::cases;

// If this fails, the table of declarations has changed: write the manual anew with
// `overbend_manual > cases/README.md` (target overbend_manual of the unit tests).
TEST(Manual, IsUpToDate)
{
  std::ifstream stream(OVERBEND_SOURCE_DIR "/cases/README.md");
  std::stringstream text;
  text << stream.rdbuf();
  EXPECT_EQ(text.str(), manual());
}

TEST(Manual, NamesEveryKey)
{
  const std::string text = manual();
  for (const Declaration &declaration : declarations())
    EXPECT_NE(text.find("| `" + declaration.key + "` | "), std::string::npos) << declaration.name();
}

TEST(Declarations, AreOneForEachKeyAndComplete)
{
  std::set<std::string> names, sections;
  for (const SectionNote &note : section_notes())
    sections.insert(note.name);
  for (const Declaration &declaration : declarations()) {
    EXPECT_TRUE(names.insert(declaration.name()).second) << declaration.name();
    EXPECT_TRUE(sections.count(declaration.section)) << declaration.section;
    EXPECT_FALSE(declaration.sentence.empty()) << declaration.name();
    EXPECT_EQ(declaration.sentence.back(), '.') << declaration.name();
    EXPECT_LE(declaration.low, declaration.high) << declaration.name();
  }
}

// A default that its own reader refuses would be an error at the user's expense.
TEST(Declarations, DefaultsAndExamplesAreValid)
{
  for (const Declaration &declaration : declarations()) {
    Draft draft;
    draft.result = preset_case("electric");
    for (const std::string &text : {declaration.preset_or, declaration.example})
      if (!text.empty()) {
        EXPECT_NO_THROW(store(declaration, text, draft)) << declaration.name();
      }
  }
}

TEST(Template, OfEveryPresetReadsAsThePreset)
{
  for (const Preset &preset : presets())
    EXPECT_EQ(to_text(parse_case(template_case(preset.name), "template")),
              to_text(preset_case(preset.name)));
}

// Taking away the # from every disabled value changes nothing either.
TEST(Template, ShowsTheValuesThatHold)
{
  for (const Preset &preset : presets()) {
    std::istringstream lines(template_case(preset.name));
    std::string text, line;
    while (std::getline(lines, line)) {
      const bool disabled =
          line.size() > 1 && line[0] == '#' && std::islower(static_cast<unsigned char>(line[1]));
      text += (disabled ? line.substr(1) : line) + "\n";
    }
    EXPECT_EQ(to_text(parse_case(text, "template")), to_text(preset_case(preset.name)));
  }
}

TEST(Template, OfAnUnknownPresetSuggestsOne)
{
  try {
    template_case("clasical");
    FAIL();
  } catch (const CaseError &error) {
    EXPECT_STREQ(error.what(),
                 "template: there is no preset \"clasical\"; did you mean \"classical\"?");
  }
}
} // namespace
