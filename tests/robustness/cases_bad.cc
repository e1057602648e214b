// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/read/read_case.h"
#include "tests/both_units.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <sstream>
#include <vector>

// Each bad_cases/x.toml must be refused with exactly the sentence in x.message. Error texts are
// results: whoever changes one changes it on purpose.
namespace
{
using namespace overbend::cases;
namespace fs = std::filesystem;

std::string contents(const fs::path &path)
{
  std::ifstream stream(path, std::ios::binary);
  std::stringstream text;
  text << stream.rdbuf();
  return text.str();
}

std::vector<fs::path> corpus()
{
  std::vector<fs::path> paths;
  for (const auto &entry :
       fs::directory_iterator(OVERBEND_SOURCE_DIR "/tests/robustness/bad_cases"))
    if (entry.path().extension() == ".toml")
      paths.push_back(entry.path());
  std::sort(paths.begin(), paths.end());
  return paths;
}

TEST(BadCases, AreRefusedWithTheirSentence)
{
  const std::vector<fs::path> paths = corpus();
  EXPECT_GE(paths.size(), 30u);
  for (const fs::path &path : paths) {
    const fs::path message = fs::path(path).replace_extension(".message");
    ASSERT_TRUE(fs::exists(message)) << message;
    try {
      parse_case(contents(path), path.filename().string());
      ADD_FAILURE() << path.filename() << " was accepted";
    } catch (const CaseError &error) {
      EXPECT_EQ(error.what() + std::string("\n"), contents(message));
    }
  }
}

TEST(BadCases, SayWhatToDoInOneLine)
{
  for (const fs::path &path : corpus())
    try {
      parse_case(contents(path), "case.toml");
    } catch (const CaseError &error) {
      EXPECT_FALSE(error.problem.empty()) << path.filename();
      EXPECT_FALSE(error.remedy.empty()) << path.filename();
      EXPECT_TRUE(overbend::tests::bare_numbers(error.what()).empty()) << error.what();
      EXPECT_EQ(std::string(error.what()).find('\n'), std::string::npos) << path.filename();
      const std::string text = contents(path);
      EXPECT_LE(error.line, 1 + std::count(text.begin(), text.end(), '\n')) << path.filename();
    }
}
} // namespace
