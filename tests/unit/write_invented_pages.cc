// SPDX-License-Identifier: GPL-3.0-or-later
// Writes pages of invented plans, a folder for each preset and one that is read hot a second time,
// each with much to say: for a look at them and for tests/browser/run. Usage:
// overbend_invented_pages FOLDER
#include "cases/declare/phases.h"
#include "cases/read/read_case.h"
#include "solver/results/text_file.h"
#include "tests/unit/invented_plan.h"
#include "viz/report/pages.h"

#include <filesystem>
#include <iostream>

namespace
{
using namespace overbend;

cases::Case with_much_to_say(const char *preset)
{
  cases::Case c = cases::preset_case(preset);
  c.title = "a title that goes on a little longer than most";
  c.board_glue.kind.reset();
  c.binding = cases::Binding::unknown;
  c.finish = cases::Finish::unknown;
  c.found.twist = 0.0044;
  return c;
}

void write(const std::filesystem::path &folder, const cases::Case &c)
{
  std::filesystem::create_directories(folder);
  solver::write_text_file((folder / "plan.json").string(),
                          tests::invented_plan(c, solver::Verdict::with_cautions));
  viz::write_pages(folder.string());
  std::cout << folder.string() << "\n";
}
} // namespace

int main(int argc, char **argv)
{
  if (argc != 2)
    return 2;
  const std::filesystem::path all = argv[1];
  for (const char *preset : {"electric", "steel-string acoustic", "classical", "long-scale bass"}) {
    cases::Case c = with_much_to_say(preset);
    c.phases = cases::scheduled_phases(c, 2);
    write(all / preset, c);
  }
  cases::Case c = with_much_to_say("electric");
  c.schedule.hold = 3 * 3600;
  c.schedule.second_reread = true;
  c.phases = cases::scheduled_phases(c);
  write(all / "read twice", c);
}
