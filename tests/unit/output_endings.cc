// SPDX-License-Identifier: GPL-3.0-or-later
// What a program that is ended from outside says and leaves.
#include <gmock/gmock.h>
#include <sys/wait.h>
#include <unistd.h>

#include <csignal>
#include <cstdlib>

// After gmock: a macro of deal.II has the name of a function of gmock.
#include "solver/ending/signals.h"
#include "solver/ending/sudden_end.h"
#include "solver/run/run_record.h"
#include "tests/unit/output_helpers.h"

using namespace overbend::solver;
using namespace overbend::tests;
using ::testing::AllOf;
using ::testing::HasSubstr;

namespace
{
// A run that has written half a file when the signal comes.
[[noreturn]] void run_until(int signal, const std::string &folder)
{
  if (std::freopen((folder + "/said.txt").c_str(), "w", stderr) == nullptr)
    std::_Exit(1);
  end_tidily_on_signals();
  with_record_of_failure(
      folder, test_record(), [] { return 3.; },
      [&] {
        const ScratchFile half(folder + "/plan.txt.tmp");
        std::ofstream(half.path()) << "half";
        raise(signal);
        sleep(60);
      });
  std::_Exit(7);
}

int status_of(pid_t child)
{
  int status = 0;
  EXPECT_EQ(waitpid(child, &status, 0), child);
  return WIFEXITED(status) ? WEXITSTATUS(status) : -WTERMSIG(status);
}
} // namespace

TEST(Signals, EndARunWithASentenceARecordItsStatusAndNoHalfWrittenFile)
{
  const TemporaryFolder folder;
  for (const auto &[signal, status, words] :
       {std::tuple(SIGINT, 130, "signal INT (Ctrl-C)"), std::tuple(SIGTERM, 143, "signal TERM"),
        std::tuple(SIGHUP, 129, "signal HUP")}) {
    std::signal(signal, SIG_DFL);
    const pid_t child = fork();
    ASSERT_GE(child, 0);
    if (child == 0)
      run_until(signal, folder.file(""));
    EXPECT_EQ(status_of(child), status);
    EXPECT_FALSE(std::filesystem::exists(folder.file("plan.txt.tmp")));
    EXPECT_THAT(contents(folder.file("record.txt")),
                AllOf(HasSubstr("wall time [s]: 3\n"),
                      HasSubstr("exit reason: stopped by the " + std::string(words))));
    EXPECT_THAT(contents(folder.file("said.txt")),
                AllOf(HasSubstr("Overbend was stopped by the " + std::string(words)),
                      HasSubstr("run it again with --replace\n")));
  }
}

// As under nohup.
TEST(Signals, OneThatIsIgnoredStaysIgnored)
{
  const pid_t child = fork();
  ASSERT_GE(child, 0);
  if (child == 0) {
    std::signal(SIGHUP, SIG_IGN);
    end_tidily_on_signals();
    raise(SIGHUP);
    usleep(200000);
    std::_Exit(7);
  }
  EXPECT_EQ(status_of(child), 7);
}

// Someone who presses Ctrl-C again does not want to wait for what is due.
TEST(Signals, TheSecondEndsAtOnce)
{
  const pid_t child = fork();
  ASSERT_GE(child, 0);
  if (child == 0) {
    std::signal(SIGINT, SIG_DFL);
    end_tidily_on_signals();
    const AtSuddenEnd slow([](const std::string &) {
      sleep(60);
      return std::string();
    });
    raise(SIGINT);
    usleep(200000);
    raise(SIGINT);
    std::_Exit(7);
  }
  EXPECT_EQ(status_of(child), -SIGINT);
}

TEST(ScratchFile, IsGoneUnlessItIsKept)
{
  const TemporaryFolder folder;
  for (const bool keep : {true, false}) {
    ScratchFile scratch(folder.file("half"));
    std::ofstream(scratch.path()) << "text";
    const bool kept = keep && scratch.keep_as(folder.file("whole"));
    EXPECT_EQ(kept, keep);
  }
  EXPECT_FALSE(std::filesystem::exists(folder.file("half")));
  EXPECT_EQ(contents(folder.file("whole")), "text");
}
