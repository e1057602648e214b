// SPDX-License-Identifier: GPL-3.0-or-later
// Writes pages of invented plans, one folder a preset, each with much to say: for a look at them
// and for tests/browser/run. Usage: overbend_invented_pages FOLDER
#include "cases/declare/phases.h"
#include "cases/read/read_case.h"
#include "solver/results/text_file.h"
#include "tests/unit/invented_plan.h"
#include "viz/report/pages.h"

#include <filesystem>
#include <iostream>

int main(int argc, char **argv)
{
  using namespace overbend;
  if (argc != 2)
    return 2;
  for (const char *preset : {"electric", "steel-string acoustic", "classical", "long-scale bass"}) {
    cases::Case c = cases::preset_case(preset);
    c.title = "a title that goes on a little longer than most";
    c.board_glue.kind.reset();
    c.binding = cases::Binding::unknown;
    c.finish = cases::Finish::unknown;
    c.found.twist = 0.0044;
    c.phases = cases::scheduled_phases(c, 2);
    const std::filesystem::path folder = std::filesystem::path(argv[1]) / preset;
    std::filesystem::create_directories(folder);
    solver::write_text_file((folder / "plan.json").string(),
                            tests::invented_plan(c, solver::Verdict::with_cautions));
    viz::write_pages(folder.string());
    std::cout << folder.string() << "\n";
  }
}
