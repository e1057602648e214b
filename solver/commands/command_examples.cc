// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/commands/command_examples.h"

#include <algorithm>
#include <stdexcept>
#include <utility>
#include <vector>

namespace overbend::solver
{
namespace
{
struct Examples
{
  std::string command;
  std::vector<std::pair<std::string, std::string>> lines; // what is typed, what it does
};

// The first line of each command stands for it in the help of the program.
const std::vector<Examples> &table()
{
  static const std::vector<Examples> all = {
      {"ask",
       {{"ask my-neck.toml --preset electric", "answer questions, get a case"},
        {"ask my-neck.toml --continue", "go on where it was left"}}},
      {"sheet",
       {{"sheet electric", "a sheet to print, in ./intake-sheet.html"},
        {"sheet \"long-scale bass\" --output bass.html",
         "for another instrument, in another file"}}},
      {"check",
       {{"check my-neck.toml", "is it complete, and will it be refused?"},
        {"check my-neck.toml --quiet && echo good", "in a script"}}},
      {"plan",
       {{"plan my-neck.toml", "the plan, in ./my-neck-plan"},
        {"plan my-neck.toml --output first --timing", "in ./first, and where the time went"},
        {"plan my-neck.toml --replace --no-film", "once more, in place of the earlier one"}}},
      {"vary",
       {{"vary my-neck.toml --set \"schedule.hold = 2 h, 4 h, 6 h\"",
         "a plan for each, side by side, in ./my-neck-vary"},
        {"vary my-neck.toml --set \"heater.bar_temperature = 57..66 degC in 4\" --set "
         "\"glue.board = white PVA, yellow PVA\"",
         "every combination"},
        {"vary my-neck.toml --set \"schedule.hold = 2 h, 4 h\" --list",
         "the commands, to run them elsewhere; then once more without --list"}}},
      {"report", {{"report my-neck-plan", "its bench card and report once more"}}},
      {"pictures",
       {{"pictures my-neck-plan", "its pictures and film once more"},
        {"pictures my-neck-run --no-film", "without the film"}}},
      {"simulate",
       {{"simulate my-neck.toml", "the stages as they stand in the file, in ./my-neck-run"},
        {"simulate my-neck.toml --output what-if --no-pictures", "figures only, in ./what-if"}}},
      {"mesh",
       {{"mesh my-neck.toml", "how good the mesh is, and the mesh in ./my-neck.msh"},
        {"mesh my-neck.toml --output fine.msh", "in another file"}}},
      {"list",
       {{"list glues \"white PVA\"", "numbers with unit, spread, mark and source"},
        {"list woods", "the names"},
        {"list limits", "where a correction has to stop, and why"},
        {"list presets electric", "what the preset says"}}},
      {"template",
       {{"template electric > my-neck.toml", "a case with every key and its comment"},
        {"template classical | less", "look at it first"}}},
  };
  return all;
}

using Lines = std::vector<std::pair<std::string, std::string>>;

// In two columns.
std::string printed(const Lines &lines)
{
  std::size_t widest = 0;
  for (const auto &[typed, does] : lines)
    widest = std::max(widest, typed.size());
  std::string text = "\nExamples:\n";
  for (const auto &[typed, does] : lines)
    text += "  overbend " + typed + std::string(widest + 3 - typed.size(), ' ') + does + "\n";
  return text;
}
} // namespace

std::string examples_of(const std::string &command)
{
  for (const Examples &one : table())
    if (one.command == command)
      return printed(one.lines);
  throw std::logic_error("no examples of " + command);
}

std::string all_examples()
{
  Lines firsts;
  for (const Examples &one : table())
    firsts.push_back(one.lines.front());
  return printed(firsts) + R"(
`overbend COMMAND --help` has more of each.

Exit status: 0 done (a plan that says "do not do it" is an answer too), 1 a fault of the program,
2 a mistake in the case or on the command line, 3 not converged, 4 files, disk or memory; 130, 143, 129
stopped by INT, TERM, HUP.)";
}
} // namespace overbend::solver
