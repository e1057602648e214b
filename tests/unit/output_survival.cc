// SPDX-License-Identifier: GPL-3.0-or-later
// What is left of the results when a run is killed or the disk is full.
#include <gmock/gmock.h>
#include <sys/resource.h>
#include <sys/wait.h>

#include <chrono>
#include <csignal>
#include <cstdlib>
#include <thread>

// After gmock: a macro of deal.II has the name of a function of gmock.
#include "solver/history/simulate.h"
#include "solver/results/file_error.h"
#include "solver/results/results_reader.h"
#include "solver/run/run_record.h"
#include "tests/unit/output_helpers.h"

using namespace overbend::solver;
using namespace overbend::tests;
using ::testing::HasSubstr;

namespace
{
std::size_t steps_named_by(const std::string &xdmf)
{
  std::size_t steps = 0;
  for (std::size_t at = 0; (at = xdmf.find("<Time ", at)) != std::string::npos; ++at)
    ++steps;
  return steps;
}

// A run that writes steps until it is killed.
pid_t start_endless_run(const std::string &folder, const MeshData &mesh)
{
  const pid_t child = fork();
  if (child != 0)
    return child;
  ResultsWriter writer(folder, mesh, test_record());
  for (int step = 0;; ++step)
    writer.write_step(step_fields(mesh.n_nodes(), step % 1000));
}
} // namespace

TEST(Survival, AFileThatWasNeverClosedIsReadUpToItsLastFlushedStep)
{
  const TemporaryFolder folder;
  const MeshData mesh = two_cells();
  ResultsWriter writer(folder.file("run"), mesh, test_record());
  for (int step = 0; step < 5; ++step) {
    writer.write_step(step_fields(mesh.n_nodes(), step));
    std::filesystem::copy_file(folder.file("run/results.h5"), folder.file("copy.h5"),
                               std::filesystem::copy_options::overwrite_existing);
    const StoredResults stored = read_results(folder.file("copy.h5"));
    ASSERT_EQ(stored.steps.size(), static_cast<std::size_t>(step) + 1);
    EXPECT_EQ(stored.steps.back().time, 600. * step);
    EXPECT_EQ(stored.record.at("exit reason"), "did not reach its end");
  }
}

TEST(Survival, ARunThatDoesNotConvergeLeavesItsRecordWithTheReasonAndItsSteps)
{
  const TemporaryFolder folder;
  const MeshData mesh = two_cells();
  Record record = test_record();
  record.case_text = "title = \"a neck\"\n";
  const auto run = [&] {
    ResultsWriter writer(folder.file("run"), mesh, record);
    for (int step = 0; step < 3; ++step)
      writer.write_step(step_fields(mesh.n_nodes(), step));
    throw NotConverged("Phase \"heat\" does not converge at its start: no reason");
  };
  EXPECT_THROW(with_record_of_failure(
                   folder.file("run"), record, [] { return 12.; }, run),
               NotConverged);
  const std::string text = contents(folder.file("run/record.txt"));
  EXPECT_THAT(text, HasSubstr("wall time [s]: 12\n"));
  EXPECT_THAT(text, HasSubstr("exit reason: not converged: Phase \"heat\""));
  EXPECT_THAT(text, HasSubstr("case text:\ntitle = \"a neck\"\n"));
  EXPECT_EQ(read_results(folder.file("run/results.h5")).steps.size(), 3u);
}

TEST(Survival, TroubleWithFilesIsInTheRecordAndIsToldEvenWhenTheRecordCannotBeWritten)
{
  const TemporaryFolder folder;
  const auto full_disk = [] { throw FileError("x", "is full", "make room"); };
  const auto fails = [&](const std::string &where) {
    with_record_of_failure(
        where, test_record(), [] { return 1.; }, full_disk);
  };
  std::filesystem::create_directories(folder.file("run"));
  EXPECT_THROW(fails(folder.file("run")), FileError);
  EXPECT_THAT(contents(folder.file("run/record.txt")),
              HasSubstr("exit reason: files: x: is full; make room\n"));
  try {
    fails(folder.file("gone"));
    FAIL() << "no error";
  } catch (const FileError &error) {
    EXPECT_EQ(error.path, "x"); // the trouble that stopped the run, not that of the record
  }
}

TEST(Survival, AfterAKillEveryStepThatTheXdmfNamesCanBeRead)
{
  const TemporaryFolder folder;
  const MeshData mesh = two_cells();
  for (int trial = 0; trial < 10; ++trial) {
    const std::string run = folder.file("run" + std::to_string(trial));
    const pid_t child = start_endless_run(run, mesh);
    ASSERT_GT(child, 0);
    while (!std::filesystem::exists(run + "/results.xdmf"))
      std::this_thread::sleep_for(std::chrono::milliseconds(1));
    std::this_thread::sleep_for(std::chrono::microseconds(20000 + 3700 * trial));
    kill(child, SIGKILL);
    int status = 0;
    ASSERT_EQ(waitpid(child, &status, 0), child);
    ASSERT_TRUE(WIFSIGNALED(status));
    const std::size_t named = steps_named_by(contents(run + "/results.xdmf"));
    ASSERT_GT(named, 0u);
    const StoredResults stored = read_results(run + "/results.h5");
    ASSERT_GE(stored.steps.size(), named) << trial;
    for (std::size_t step = 0; step < named; ++step)
      EXPECT_EQ(stored.steps[step].time, 600. * static_cast<double>(step % 1000));
  }
}

// A limit on the size of files stands in for the full disk: the write fails in the same place.
TEST(Survival, AFullDiskIsASentenceAndTheStepsBeforeItStayReadable)
{
  const TemporaryFolder folder;
  const pid_t child = fork();
  ASSERT_GE(child, 0);
  if (child == 0) {
    std::signal(SIGXFSZ, SIG_IGN);
    const MeshData mesh = two_cells();
    int written = 0;
    try {
      ResultsWriter writer(folder.file("run"), mesh, test_record());
      for (; written < 1000; ++written) {
        if (written == 3) {
          const rlim_t now = std::filesystem::file_size(folder.file("run/results.h5"));
          const rlimit limit = {now + 2000, now + 2000};
          setrlimit(RLIMIT_FSIZE, &limit);
        }
        writer.write_step(step_fields(mesh.n_nodes(), written));
      }
    } catch (const FileError &error) {
      // The destructor has run by now, on a disk that is still full.
      std::fprintf(stderr, "%s\n", error.what());
      const bool told = error.problem.find("File too large") != std::string::npos &&
                        error.remedy.find("free space") != std::string::npos;
      std::_Exit(told && written >= 3 ? 10 + written : 1);
    }
    std::_Exit(2);
  }
  int status = 0;
  ASSERT_EQ(waitpid(child, &status, 0), child);
  ASSERT_TRUE(WIFEXITED(status));
  ASSERT_GE(WEXITSTATUS(status), 13) << "not refused, or not in the words expected";
  const std::size_t written = static_cast<std::size_t>(WEXITSTATUS(status)) - 10;
  EXPECT_EQ(steps_named_by(contents(folder.file("run/results.xdmf"))), written);
  const StoredResults stored = read_results(folder.file("run/results.h5"));
  ASSERT_GE(stored.steps.size(), written);
  for (std::size_t step = 0; step < written; ++step)
    EXPECT_EQ(stored.steps[step].time, 600. * static_cast<double>(step));
}

namespace
{
// Writes steps until the disk is full at `bytes`, and ends as a program does, with the handlers of
// the libraries. 40 and the number of whole steps: told in a sentence.
[[noreturn]] void write_up_to(rlim_t bytes, const std::string &folder)
{
  std::signal(SIGXFSZ, SIG_IGN);
  const rlimit limit = {bytes, bytes};
  setrlimit(RLIMIT_FSIZE, &limit);
  int written = 0;
  try {
    const MeshData mesh = two_cells();
    ResultsWriter writer(folder, mesh, test_record());
    for (; written < 100; ++written)
      writer.write_step(step_fields(mesh.n_nodes(), written));
  } catch (const FileError &) {
    std::exit(40 + written);
  }
  std::exit(2);
}
} // namespace

// Where the disk gets full decides what the library still holds when the program ends.
TEST(Survival, AFullDiskEndsTheProgramWithItsStatusWhereverItComes)
{
  const TemporaryFolder folder;
  std::size_t with_steps = 0;
  for (rlim_t bytes = 500; bytes < 400000; bytes += bytes / 9) {
    const std::string run = folder.file(std::to_string(bytes));
    const pid_t child = fork();
    ASSERT_GE(child, 0);
    if (child == 0)
      write_up_to(bytes, run);
    int status = 0;
    ASSERT_EQ(waitpid(child, &status, 0), child);
    ASSERT_TRUE(WIFEXITED(status)) << "a crash at " << bytes << " bytes";
    ASSERT_GE(WEXITSTATUS(status), 40) << bytes;
    const std::size_t written = static_cast<std::size_t>(WEXITSTATUS(status)) - 40;
    if (written == 0)
      continue;
    ++with_steps;
    EXPECT_GE(read_results(run + "/results.h5").steps.size(), written) << bytes;
  }
  EXPECT_GT(with_steps, 0u);
}
