// SPDX-License-Identifier: GPL-3.0-or-later
#include "materials/tables.h"

#include "cases/declare/presets.h"
#include "cases/text/error.h"
#include "materials/sha256.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>
#include <filesystem>
#include <fstream>
#include <regex>
#include <sstream>

namespace overbend::tests
{
namespace
{
namespace fs = std::filesystem;
using namespace materials;
using testing::HasSubstr;

const std::string shipped = OVERBEND_SOURCE_DIR "/materials";

std::string read(const fs::path &path)
{
  std::ifstream stream(path);
  std::ostringstream text;
  text << stream.rdbuf();
  return text.str();
}

// A copy of the shipped tables with one text replaced in one file; gone with the object.
class Spoilt
{
public:
  Spoilt(const std::string &file, const std::string &text, const std::string &by)
  {
    const std::string name = testing::UnitTest::GetInstance()->current_test_info()->name();
    folder = fs::temp_directory_path() / ("overbend_tables_" + name);
    fs::remove_all(folder);
    fs::create_directories(folder);
    for (const char *table : {"woods.toml", "glues.toml", "bars.toml", "strings.toml",
                              "tuners.toml", "finishes.toml", "limits.toml"})
      fs::copy_file(fs::path(shipped) / table, folder / table);
    std::string content = read(folder / file);
    const std::size_t place = content.find(text);
    EXPECT_NE(place, std::string::npos) << text;
    if (place != std::string::npos)
      content.replace(place, text.size(), by);
    std::ofstream(folder / file) << content;
  }
  ~Spoilt() { fs::remove_all(folder); }

  // The message with which the tables are refused.
  std::string message() const
  {
    try {
      read_tables(folder.string());
    } catch (const cases::CaseError &error) {
      return error.what();
    }
    return "not refused";
  }

private:
  fs::path folder;
};

template <class Items>
void expect_complete(const Items &items)
{
  EXPECT_FALSE(items.empty());
  for (const auto &item : items) {
    EXPECT_FALSE(item.numbers.empty()) << item.name;
    for (const Quantity &q : item.numbers) {
      const std::string where = item.name + ", " + q.key;
      EXPECT_FALSE(q.value.empty() || q.unit.empty() || q.spread.empty() || q.source.empty())
          << where;
      EXPECT_THAT(std::string(letter(q.mark)), testing::AnyOf("S", "M", "E", "C")) << where;
      for (const double value : q.value)
        EXPECT_TRUE(std::isfinite(value)) << where;
    }
    EXPECT_EQ(rows(item).size(), item.numbers.size());
  }
}

std::string refusal(const std::function<void()> &look_up)
{
  try {
    look_up();
  } catch (const cases::CaseError &error) {
    return error.what();
  }
  return "found";
}
} // namespace

TEST(Tables, EveryNumberHasValueUnitSpreadSourceAndMark)
{
  const Tables all = read_tables(shipped);
  expect_complete(all.woods);
  expect_complete(all.glues);
  expect_complete(all.bars);
  expect_complete(all.string_sets);
  expect_complete(all.tuners);
  expect_complete(all.finishes);
  expect_complete(std::vector<WorkLimits>{all.limits});
}

// Source: FIPS 180-2, examples of one block and of two.
TEST(Tables, FilesAreKnownByTheirSha256)
{
  EXPECT_EQ(sha256("abc"), "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
  EXPECT_EQ(sha256("abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq"),
            "248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1");
  const Tables all = read_tables(shipped);
  ASSERT_EQ(all.files.size(), 7U);
  for (const TableFile &file : all.files)
    EXPECT_EQ(file.sha256, sha256(read(fs::path(shipped) / file.name))) << file.name;
}

TEST(Tables, NumberWithoutSourceIsRefused)
{
  const Spoilt spoilt("woods.toml", ", mark = \"S\", source = \"WH 5-2\"", ", mark = \"S\"");
  EXPECT_THAT(spoilt.message(), AllOf(HasSubstr("woods.toml:"), HasSubstr("\"sugar maple\""),
                                      HasSubstr("no source")));
}

TEST(Tables, UnknownSourceIsRefusedWithASuggestion)
{
  const Spoilt spoilt("woods.toml", "source = \"WH 5-2\"", "source = \"WH 5-22\"");
  EXPECT_THAT(spoilt.message(), AllOf(HasSubstr("WH 5-22"), HasSubstr("did you mean")));
}

TEST(Tables, BadMarkIsRefused)
{
  const Spoilt spoilt("glues.toml", "mark = \"M\"", "mark = \"X\"");
  EXPECT_THAT(spoilt.message(), AllOf(HasSubstr("glues.toml:"), HasSubstr("mark \"X\"")));
}

TEST(Tables, NumberThatIsNotFiniteIsRefused)
{
  const Spoilt spoilt("glues.toml", "value = 32.0", "value = nan");
  EXPECT_THAT(spoilt.message(),
              AllOf(HasSubstr("white PVA"), HasSubstr("softening"), HasSubstr("no finite value")));
}

TEST(Tables, InfinityInAListIsRefused)
{
  const Spoilt spoilt("strings.toml", "value = [3.", "value = [inf, 3.");
  EXPECT_THAT(spoilt.message(), AllOf(HasSubstr("mass"), HasSubstr("no finite value")));
}

TEST(Tables, WrongUnitIsRefused)
{
  const Spoilt spoilt("bars.toml", "unit = \"GPa\"", "unit = \"MPa\"");
  EXPECT_THAT(spoilt.message(), AllOf(HasSubstr("\"steel\""), HasSubstr("give it in \"GPa\"")));
}

TEST(Tables, MissingSpreadIsRefused)
{
  const Spoilt spoilt("tuners.toml", "cov = 0.05, ", "");
  EXPECT_THAT(spoilt.message(), AllOf(HasSubstr("tuners.toml:"), HasSubstr("spread")));
}

TEST(Tables, RangeThatDoesNotHoldItsValueIsRefused)
{
  const Spoilt spoilt("bars.toml", "range = [200.0, 210.0]", "range = [206.0, 210.0]");
  EXPECT_THAT(spoilt.message(), HasSubstr("does not hold its value"));
}

TEST(Tables, ComplianceThatIsNotPositiveDefiniteIsRefused)
{
  const Spoilt spoilt("woods.toml", "nu_RT = { value = 0.774", "nu_RT = { value = 1.6");
  EXPECT_THAT(spoilt.message(), AllOf(HasSubstr("woods.toml:"), HasSubstr("\"sugar maple\""),
                                      HasSubstr("not positive definite")));
}

TEST(Tables, WornFilmThatResistsMoreThanTheSoundOneIsRefused)
{
  const Spoilt spoilt("finishes.toml",
                      "film_resistance_worn = { value = 6e7, unit = \"s/m\", range = [1e7, 2e8]",
                      "film_resistance_worn = { value = 6e9, unit = \"s/m\", range = [1e7, 2e10]");
  EXPECT_THAT(spoilt.message(), AllOf(HasSubstr("finishes.toml:"), HasSubstr("worn film")));
}

TEST(Tables, NegativeMechanoSorptiveShareIsRefused)
{
  const Spoilt spoilt("woods.toml", "sorptive_LL = { value = [0.0, 0.0, 0.45",
                      "sorptive_LL = { value = [0.0, 0.0, -0.45");
  EXPECT_THAT(spoilt.message(), AllOf(HasSubstr("woods.toml:"), HasSubstr("negative share")));
}

TEST(Tables, MissingStrengthNeedsAReason)
{
  const Spoilt spoilt("woods.toml", "{ missing = \"not in the source for this wood\" }",
                      "{ missing = \"\" }");
  EXPECT_THAT(spoilt.message(), HasSubstr("missing without a reason"));
}

TEST(Tables, MisspeltKeyIsRefusedWithASuggestion)
{
  const Spoilt spoilt("tuners.toml", "along_limit =", "along_limt = 3\nalong_limit =");
  EXPECT_THAT(spoilt.message(), AllOf(HasSubstr("along_limt"), HasSubstr("did you mean")));
}

TEST(Tables, ATunerOfNoKnownKindIsRefused)
{
  const Spoilt spoilt("tuners.toml", "kind = \"worm\"", "kind = \"warm\"");
  EXPECT_THAT(spoilt.message(),
              AllOf(HasSubstr("guitar 14:1"), HasSubstr("worm, roller, small or peg")));
}

TEST(Tables, BrokenFileAndMissingFolderAreRefused)
{
  const Spoilt spoilt("woods.toml", "\n[common]", "\n[common");
  EXPECT_THAT(spoilt.message(), AllOf(HasSubstr("woods.toml:"), HasSubstr("not valid TOML")));
  EXPECT_THROW(read_tables(shipped + "/nowhere"), cases::CaseError);
}

TEST(Tables, NamesAreFoundByAliasAndUnknownOnesGetASuggestion)
{
  const Tables &all = tables();
  EXPECT_EQ(all.wood("Hard Maple").name, "sugar maple");
  EXPECT_EQ(all.glue("hide").name, "hot hide");
  EXPECT_EQ(all.string_set("10-46").name, "electric 10-46");
  EXPECT_THAT(refusal([&] { all.wood("suger maple", "neck.toml", 7); }),
              AllOf(HasSubstr("neck.toml:7:"), HasSubstr("did you mean \"sugar maple\"")));
  EXPECT_THAT(refusal([&] { all.glue("qqqqqqqqqq"); }), HasSubstr("white PVA"));
}

TEST(Tables, EveryNameInThePresetsIsInTheTables)
{
  std::string text;
  for (const cases::Preset &preset : cases::presets())
    text += "\n" + preset.text;
  const auto each = [&](const std::string &pattern, const std::function<void(std::string)> &use) {
    unsigned found = 0;
    const std::regex rule(pattern);
    for (std::sregex_iterator at(text.begin(), text.end(), rule), end; at != end; ++at, ++found)
      use((*at)[1]);
    EXPECT_GE(found, 4U) << pattern;
  };
  each("\nwood = \"([^\"]+)\"",
       [](const std::string &name) { EXPECT_NO_THROW(tables().wood(name)); });
  each("\nset = \"([^\"]+)\"",
       [](const std::string &name) { EXPECT_NO_THROW(tables().string_set(name)); });
  each("\nkind = \"([^\"]+ *\\d+:1)\"",
       [](const std::string &name) { EXPECT_NO_THROW(tables().tuner(name)); });
  for (const char *bar : {"steel", "carbon", "aluminium"})
    EXPECT_NO_THROW(tables().bar(bar));
}
} // namespace overbend::tests
