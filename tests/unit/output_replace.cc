// SPDX-License-Identifier: GPL-3.0-or-later
// --replace: the folder of a new run holds nothing of an earlier one, and nobody's file is lost.
#include <gmock/gmock.h>
#include <sys/stat.h>

// After gmock: a macro of deal.II has the name of a function of gmock.
#include "solver/results/file_error.h"
#include "solver/results/run_files.h"
#include "solver/results/text_file.h"
#include "solver/run/run_output.h"
#include "tests/unit/output_helpers.h"

using namespace overbend::solver;
using namespace overbend::tests;
using ::testing::ElementsAre;
using ::testing::HasSubstr;

namespace
{
namespace fs = std::filesystem;

// A folder "run" with files of a run in it.
class RunReplaced : public ::testing::Test
{
protected:
  RunReplaced()
  {
    fs::create_directories(folder.file("run/pictures"));
    for (const char *name : {"bench-card.html", "plan.json", "results.h5", "record.txt",
                             "pictures/slip.png", "pictures/history.mp4.part", "plan.txt.tmp"})
      put(name);
  }

  void put(const std::string &name) const { std::ofstream(folder.file("run/" + name)) << "do it"; }

  std::vector<std::string> left() const
  {
    std::vector<std::string> names;
    for (const auto &entry : fs::recursive_directory_iterator(folder.file("run")))
      names.push_back(fs::relative(entry.path(), folder.file("run")).string());
    std::sort(names.begin(), names.end());
    return names;
  }

  // Refused with this said, and nothing removed or written.
  void expect_refused(const std::string &said) const
  {
    const std::vector<std::string> before = left();
    try {
      const FolderLock lock = claim_folder(folder.file("run"), true, test_record());
      FAIL() << "no error";
    } catch (const FileError &error) {
      EXPECT_EQ(error.path, folder.file("run"));
      EXPECT_THAT(error.problem, HasSubstr(said));
    }
    EXPECT_EQ(left(), before);
    EXPECT_EQ(contents(folder.file("run/record.txt")), "do it");
  }

  TemporaryFolder folder;
};
} // namespace

TEST_F(RunReplaced, OnlyTheRecordOfTheNewRunIsThereAndSaysThatItHasNotEnded)
{
  const FolderLock lock = claim_folder(folder.file("run"), true, test_record());
  EXPECT_THAT(left(), ElementsAre("record.txt"));
  EXPECT_THAT(contents(folder.file("run/record.txt")),
              HasSubstr("exit reason: did not reach its end\n"));
}

TEST_F(RunReplaced, UnaskedNothingIsTouched)
{
  const std::vector<std::string> before = left();
  EXPECT_THROW(const FolderLock lock = claim_folder(folder.file("run"), false, test_record()),
               FileError);
  EXPECT_EQ(left(), before);
}

TEST_F(RunReplaced, WhileARunIsWritingAnotherIsRefusedAndNothingIsTouched)
{
  {
    const FolderLock first = claim_folder(folder.file("run"), true, test_record());
    put("plan.txt");
    for (const bool replace : {true, false})
      try {
        const FolderLock second = claim_folder(folder.file("run"), replace, test_record());
        FAIL() << "no error";
      } catch (const FileError &error) {
        EXPECT_THAT(error.problem, HasSubstr("another run or command is writing"));
      }
    EXPECT_EQ(contents(folder.file("run/plan.txt")), "do it");
  }
  const FolderLock after = claim_folder(folder.file("run"), true, test_record());
  EXPECT_THAT(left(), ElementsAre("record.txt"));
}

TEST(TextFile, ADeviceOrAPipeIsNotReplacedByAFile)
{
  const TemporaryFolder folder;
  ASSERT_EQ(mkfifo(folder.file("pipe").c_str(), 0600), 0);
  try {
    write_text_file(folder.file("pipe"), "text");
    FAIL() << "no error";
  } catch (const FileError &error) {
    EXPECT_THAT(error.problem, HasSubstr("a device or a pipe"));
  }
  EXPECT_TRUE(fs::is_fifo(folder.file("pipe")));
  EXPECT_FALSE(fs::exists(folder.file("pipe.tmp")));
}

TEST_F(RunReplaced, AFileOfAnotherNameIsNamedAndNothingIsRemoved)
{
  put("notes.txt");
  put("pictures/my neck.png");
  expect_refused("holds what no run wrote: notes.txt, pictures/my neck.png");
}

TEST_F(RunReplaced, OnlyTheFirstOfManyAreNamed)
{
  for (int k = 1; k <= 7; ++k)
    put("bar" + std::to_string(k));
  expect_refused("bar1, bar2, bar3, bar4, bar5 and 2 more");
}

TEST_F(RunReplaced, AFolderWithTheNameOfAFileIsNamed)
{
  fs::create_directory(folder.file("run/plan.txt"));
  expect_refused("plan.txt (a folder)");
}

TEST_F(RunReplaced, APipeWithTheNameOfAFileIsNamed)
{
  ASSERT_EQ(mkfifo(folder.file("run/gaps.csv").c_str(), 0600), 0);
  expect_refused("gaps.csv (no file)");
}

TEST_F(RunReplaced, ALinkIsNamedAndWhatItLeadsToStays)
{
  fs::create_directories(folder.file("elsewhere"));
  std::ofstream(folder.file("elsewhere/slip.png")) << "mine";
  fs::remove_all(folder.file("run/pictures"));
  fs::create_directory_symlink(folder.file("elsewhere"), folder.file("run/pictures"));
  fs::create_symlink(folder.file("elsewhere/slip.png"), folder.file("run/report.html"));
  expect_refused("pictures (a link), report.html (a link)");
  EXPECT_EQ(contents(folder.file("elsewhere/slip.png")), "mine");
}

TEST_F(RunReplaced, WhatIsNoFolderIsNotReplaced)
{
  for (const auto &[path, said] : {std::pair(std::string("/dev/null"), "is no folder"),
                                   std::pair(folder.file("run/plan.json"), "is a file, not")})
    try {
      const FolderLock lock = claim_folder(path, true, test_record());
      FAIL() << "no error";
    } catch (const FileError &error) {
      EXPECT_THAT(error.problem, HasSubstr(said));
    }
  EXPECT_TRUE(fs::is_character_file("/dev/null"));
  EXPECT_EQ(contents(folder.file("run/plan.json")), "do it");
}

TEST(RunFiles, OnlyTheNamesOfARunAndTheirUnfinishedForms)
{
  for (const char *name : {"plan.txt", "plan.txt.tmp", "pictures/stress.png.part", "results.h5"})
    EXPECT_TRUE(written_by_a_run(name)) << name;
  for (const char *name : {"", ".tmp", "plan", "plan.txt.bak", "plan.txt.tmp.tmp", "stress.png",
                           "pictures", "pictures/plan.txt", "case.toml"})
    EXPECT_FALSE(written_by_a_run(name)) << name;
}
