// SPDX-License-Identifier: GPL-3.0-or-later
// The story of a stored run is that of the phases that were run, not of those that its case lists.
// First: deal.II has a macro that gmock does not bear.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "tests/unit/invented_plan.h"
#include "tests/unit/output_helpers.h"
#include "viz/paraview/paraview_opener.h"
#include "viz/run/run_story.h"

using namespace overbend;
using ::testing::ElementsAre;

namespace
{
// Results of a plan of two passes whose case lists none: a step at the start and the end of each
// phase, after one of the neck as found.
void write_run(const std::string &folder, const cases::Case &c)
{
  const solver::Record record =
      solver::make_record("a.toml", "preset = \"electric\"\n\n[found]\nbow = \"1 mm\"\n", {}, 1);
  const solver::MeshData mesh = tests::two_cells();
  solver::ResultsWriter writer(folder, mesh, record);
  solver::StepFields fields = tests::step_fields(mesh.n_nodes(), 0);
  fields.phase = solver::as_found;
  fields.time = 0;
  writer.write_step(fields);
  tests::write_phases(writer, fields, c.phases);
  writer.finish(record);
}
} // namespace

TEST(RunStory, TellsBothPassesOfAPlanByTheirOwnClocks)
{
  const tests::TemporaryFolder folder;
  write_run(folder.file("run"), tests::two_passes());
  const viz::RunStory story(folder.file("run"));
  std::vector<std::string> names;
  for (const viz::RunStory::Moment &moment : story.moments())
    names.push_back(moment.name);
  EXPECT_THAT(names, ElementsAre("as found", "at the start", "end of heating", "just released",
                                 "end of heating, pass 2", "just released, pass 2", "at the end"));
  EXPECT_EQ(story.results().phase(*story.end_of_heating()), "hold, pass 2");
  for (const char *which : {"", ", pass 2"}) {
    const std::string heat = std::string("heat") + which;
    for (const viz::RunStory::PhaseSteps &phase : story.phases()) {
      if (phase.name == heat) {
        EXPECT_EQ(story.moment(phase.first), "phase \"" + heat + "\", clock 0:00");
        EXPECT_EQ(story.moment(phase.last), "phase \"" + heat + "\", clock 0:45");
      }
      if (phase.name == std::string("release") + which) {
        EXPECT_EQ(story.moment(phase.first), "phase \"" + phase.name + "\", 0:00 after release");
      }
    }
  }
}

TEST(RunStory, OfNoClampCountsFromItsStart)
{
  const tests::TemporaryFolder folder;
  cases::Case c = tests::two_passes();
  for (cases::Phase &phase : c.phases) {
    phase.cords = phase.heater = false;
    phase.pass = 1;
  }
  write_run(folder.file("run"), c);
  const viz::RunStory story(folder.file("run"));
  EXPECT_EQ(story.moment(story.start_of_work()), "phase \"clamp cold\", clock 0:00");
  EXPECT_FALSE(story.end_of_heating());
  EXPECT_EQ(story.moments().size(), 3u);
}

// Every stored time says phase and the card's clock; the view opens where most strength is in use.
TEST(RunStory, GivesParaviewItsMomentsByTheCardsClock)
{
  const tests::TemporaryFolder folder;
  write_run(folder.file("run"), tests::two_passes());
  const viz::OpenerView view = viz::opener_view(folder.file("run"));
  const viz::RunStory story(folder.file("run"));
  ASSERT_EQ(view.captions.size(), story.results().n_steps());
  for (std::size_t s = 0; s < view.captions.size(); ++s) {
    EXPECT_NEAR(view.captions[s].hours, story.results().time(s) / 3600, 1e-9);
    EXPECT_EQ(view.captions[s].name, story.moment(s));
  }
  ASSERT_EQ(view.stages.size(), story.phases().size());
  EXPECT_EQ(view.stages.back().name, "end of " + story.phases().back().name);
  EXPECT_NEAR(view.opens_at, story.results().time(story.extreme("use_of_strength").step) / 3600,
              1e-9);
  EXPECT_EQ(view.stress.low, -view.stress.high);
  EXPECT_TRUE(view.stress.is_signed);
  EXPECT_EQ(view.use.high, 1);
}

TEST(Results, HoldWhatStandsOnTheBenchInEachStep)
{
  const tests::TemporaryFolder folder;
  const cases::Case c = tests::two_passes();
  write_run(folder.file("run"), c);
  const solver::ResultsFile file(folder.file("run/results.h5"));
  ASSERT_EQ(file.n_steps(), 2 * c.phases.size() + 1);
  for (std::size_t i = 0; i < c.phases.size(); ++i) {
    const solver::OnBench &on = file.on_bench(2 * i + 1);
    EXPECT_EQ(on.pass, c.phases[i].pass);
    EXPECT_EQ(on.heated, c.phases[i].heater);
    EXPECT_EQ(on.clamped, c.phases[i].cords);
  }
}
