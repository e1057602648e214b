// SPDX-License-Identifier: GPL-3.0-or-later
// Programs that are run for what they write.
#include "viz/programs/child_program.h"
#include "tests/unit/output_helpers.h"
#include "viz/plots/plots.h"

#include <gmock/gmock.h>

#include <chrono>
#include <cstdlib>

using namespace overbend::viz;
using std::chrono::seconds;
using ::testing::HasSubstr;

namespace
{
// A program of that name in front of all others for the time of a test.
class InFront
{
public:
  InFront(const std::string &name, const std::string &script) : before_(std::getenv("PATH"))
  {
    const std::string file = folder_.file(name);
    std::ofstream(file) << "#!/bin/sh\n" << script << "\n";
    std::filesystem::permissions(file, std::filesystem::perms::owner_all);
    setenv("PATH", (folder_.file("") + ":" + before_).c_str(), 1);
  }
  ~InFront() { setenv("PATH", before_.c_str(), 1); }

private:
  overbend::tests::TemporaryFolder folder_;
  std::string before_;
};

Plot line()
{
  Plot plot;
  plot.curves.push_back({"bow", {{0, 0}, {1, 1}}});
  return plot;
}
} // namespace

TEST(ChildProgram, GivesBackWhatItWroteAndHowItEnded)
{
  const std::string much(300000, 'x'); // more than a pipe holds, both ways
  const ChildEnd end = run_program({"sh", "-c", "cat; echo wrong >&2; exit 3"}, much, seconds(60));
  EXPECT_EQ(end.kind, ChildEnd::Kind::exited);
  EXPECT_EQ(end.number, 3);
  EXPECT_EQ(end.output, much);
  EXPECT_EQ(end.errors, "wrong\n");
}

TEST(ChildProgram, OneThatHangsIsEndedAfterItsTime)
{
  const auto start = std::chrono::steady_clock::now();
  EXPECT_EQ(run_program({"sleep", "60"}, "", seconds(1)).kind, ChildEnd::Kind::too_slow);
  EXPECT_LT(std::chrono::steady_clock::now() - start, seconds(30));
}

TEST(ChildProgram, ASignalAndAMissingProgramAreTold)
{
  const ChildEnd killed = run_program({"sh", "-c", "kill -9 $$"}, "", seconds(60));
  EXPECT_EQ(killed.kind, ChildEnd::Kind::by_signal);
  EXPECT_EQ(killed.number, 9);
  EXPECT_EQ(run_program({"no-such-program"}, "", seconds(60)).kind, ChildEnd::Kind::not_started);
}

TEST(Plotter, AProgramThatHangsIsASentence)
{
  const InFront hanging("gnuplot", "case \"$1\" in --version) exit 0;; esac; exec sleep 60");
  Plotter plotter(seconds(1));
  EXPECT_EQ(plotter.why_not(), "");
  EXPECT_EQ(plotter.draw(line()), "");
  EXPECT_THAT(plotter.why_not(), HasSubstr("gnuplot did not end here"));
}

TEST(Plotter, NeedsNoFolderForTemporaryFiles)
{
  setenv("TMPDIR", "/nowhere", 1);
  Plotter plotter;
  EXPECT_THAT(plotter.draw(line()), HasSubstr("</svg>"));
  unsetenv("TMPDIR");
}
