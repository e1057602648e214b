// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/results/file_error.h"
#include "solver/results/results.h"
#include "tests/unit/output_helpers.h"
#include "viz/paraview/paraview_opener.h"

#include <gmock/gmock.h>

#include <cstdlib>

using namespace overbend;
using namespace overbend::tests;
using ::testing::HasSubstr;
using ::testing::Not;

TEST(ParaviewOpener, IsAPythonProgramThatCompiles)
{
  ASSERT_EQ(std::system("python3 --version"), 0) << "this test needs python3";
  const TemporaryFolder folder;
  viz::write_paraview_opener(folder.file(""));
  const std::string script = folder.file("open_in_paraview.py");
  EXPECT_EQ(std::system(("python3 -m py_compile '" + script + "'").c_str()), 0);
  std::ofstream(script, std::ios::app) << "def broken(:\n";
  EXPECT_NE(std::system(("python3 -m py_compile '" + script + "' 2> /dev/null").c_str()), 0);
}

namespace
{
bool is_stored(const std::string &name)
{
  for (const solver::StoredField &field : solver::stored_fields())
    if (field.shown_name() == name)
      return true;
  return false;
}

int compiles(const std::string &script)
{
  return std::system(("python3 -m py_compile '" + script + "'").c_str());
}
} // namespace

TEST(ParaviewOpener, NamesFieldsThatTheResultsHave)
{
  const viz::OpenerView view;
  for (const std::string &name :
       {view.displacement, view.stress.name, view.use.name, view.temperature.name, view.slip.name})
    EXPECT_TRUE(is_stored(name)) << name;
}

TEST(ParaviewOpener, CarriesWhatItShowsAndLeavesNoMarkOpen)
{
  const TemporaryFolder folder;
  viz::OpenerView view;
  view.magnification = 12.5;
  view.opens_at = 44.25;
  view.stress = {"stress_along_grain [MPa]", -31, 31, true};
  // A phase is named by the case.
  view.stages = {{18.2, "end of \"hot\" \\ hold"}};
  view.captions = {{0, "phase \"heat\", clock 0:00\nstraightedge at fret 7: straight"}};
  view.bench.fret_x = {0.036, 0.071};
  view.bench.pulled_at = {{-0.035, 0.03, -0.002}};
  viz::write_paraview_opener(folder.file(""), view);
  const std::string script = contents(folder.file("open_in_paraview.py"));
  EXPECT_EQ(compiles(folder.file("open_in_paraview.py")), 0);
  EXPECT_THAT(script, HasSubstr("MAGNIFICATION = 12.5\n"));
  EXPECT_THAT(script, HasSubstr("OPENS_AT = 44.25 "));
  EXPECT_THAT(script, HasSubstr("STRESS = Field(\"stress_along_grain [MPa]\", -31, 31, True)\n"));
  EXPECT_THAT(script, HasSubstr("(18.2, \"end of \\\"hot\\\" \\\\ hold\"),"));
  EXPECT_THAT(script, HasSubstr("clock 0:00\\nstraightedge"));
  EXPECT_THAT(script, Not(HasSubstr("@")));
}

TEST(ParaviewOpener, AFolderThatIsNotThereIsASentence)
{
  EXPECT_THROW(viz::write_paraview_opener("/nowhere/at/all"), solver::FileError);
  const TemporaryFolder folder;
  viz::OpenerView view;
  view.slip.name = "a\"b";
  EXPECT_THROW(viz::write_paraview_opener(folder.file(""), view), std::invalid_argument);
}
