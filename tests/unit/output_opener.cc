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

TEST(ParaviewOpener, NamesFieldsThatTheResultsHave)
{
  const viz::OpenerView view;
  bool displacement = false, colour = false;
  for (const solver::StoredField &field : solver::stored_fields()) {
    displacement = displacement || field.shown_name() == view.displacement;
    colour = colour || field.shown_name() == view.colour;
  }
  EXPECT_TRUE(displacement);
  EXPECT_TRUE(colour);
}

TEST(ParaviewOpener, CarriesTheMagnificationAndLeavesNoMarkOpen)
{
  const TemporaryFolder folder;
  viz::write_paraview_opener(folder.file(""), {12.5, "displacement [m]", "slip [mm]"});
  const std::string script = contents(folder.file("open_in_paraview.py"));
  EXPECT_THAT(script, HasSubstr("MAGNIFICATION = 12.5\n"));
  EXPECT_THAT(script, HasSubstr("COLOUR = \"slip [mm]\"\n"));
  EXPECT_THAT(script, Not(HasSubstr("@")));
}

TEST(ParaviewOpener, AFolderThatIsNotThereIsASentence)
{
  EXPECT_THROW(viz::write_paraview_opener("/nowhere/at/all"), solver::FileError);
  const TemporaryFolder folder;
  EXPECT_THROW(viz::write_paraview_opener(folder.file(""), {25, "a\"b", "c"}),
               std::invalid_argument);
}
