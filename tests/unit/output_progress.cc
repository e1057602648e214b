// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/commands/progress.h"
#include "solver/commands/timing.h"
#include "tests/unit/output_helpers.h"

#include <gmock/gmock.h>

#include <thread>

using namespace overbend::solver;
using namespace overbend::tests;
using ::testing::HasSubstr;
using ::testing::Not;

namespace
{
std::string written_by_updates(bool on_terminal, int updates)
{
  const TemporaryFolder folder;
  std::FILE *out = std::fopen(folder.file("out").c_str(), "w");
  {
    ProgressLine progress(out, on_terminal, 80);
    for (int step = 0; step < updates; ++step)
      progress.update({"heat", step / 1000.});
  }
  std::fclose(out);
  return contents(folder.file("out"));
}
} // namespace

TEST(ProgressLine, ShowsWhatIsDonePercentAndTimeLeft)
{
  EXPECT_EQ(progress_line({"trial runs, heat", 0.25}, 61, 80),
            "trial runs, heat: 25 %, about 4 min left");
  EXPECT_EQ(progress_line({"trial runs, heat", 0.5}, 60, 80),
            "trial runs, heat: 50 %, about 1 min left");
}

TEST(ProgressLine, SaysNothingOfTheTimeLeftBeforeItCanBeJudged)
{
  EXPECT_THAT(progress_line({"clamp", 0}, 10, 80), Not(HasSubstr("left")));
}

TEST(ProgressLine, FitsTheTerminalAndDoesNotCutACharacterInHalf)
{
  const std::string line = progress_line({"chauffé à 48 °C", 0.5}, 10, 8);
  EXPECT_EQ(line, "chauffé ");
}

TEST(ProgressOnTerminal, IsQuietWhereThereIsNoTerminal)
{
  EXPECT_EQ(written_by_updates(false, 50), "");
}

TEST(ProgressOnTerminal, StaysOnOneLineAndTakesItAwayAtTheEnd)
{
  const std::string text = written_by_updates(true, 50);
  EXPECT_THAT(text, HasSubstr("heat"));
  EXPECT_THAT(text, Not(HasSubstr("\n")));
  EXPECT_EQ(text.substr(text.size() - 4), "\r\033[K");
}

TEST(Timers, CountCallsTotalAndLongestInTheOrderOfFirstUse)
{
  Timers timers;
  timers.add("mesh", 2);
  timers.add("factorisation", 0.5);
  timers.add("factorisation", 1.5);
  {
    const auto timed = timers.time("pause");
    std::this_thread::sleep_for(std::chrono::milliseconds(20));
  }
  ASSERT_EQ(timers.entries().size(), 3u);
  EXPECT_EQ(timers.entries()[0].name, "mesh");
  EXPECT_EQ(timers.entries()[1].calls, 2);
  EXPECT_EQ(timers.entries()[1].total, 2);
  EXPECT_EQ(timers.entries()[1].longest, 1.5);
  EXPECT_GE(timers.entries()[2].total, 0.02);
  EXPECT_LT(timers.entries()[2].total, 5);
  EXPECT_THAT(timers.table(), HasSubstr("factorisation"));
  EXPECT_THAT(timers.table(), HasSubstr("peak memory"));
}

TEST(PeakMemory, GrowsWithWhatIsUsed)
{
  const double before = peak_memory();
  std::vector<char> used(200 << 20, 1);
  EXPECT_GT(peak_memory() + used[7], before + 50);
}
