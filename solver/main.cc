// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/text/printable.h"
#include "cases/text/suggest.h"
#include "solver/commands/command_examples.h"
#include "solver/commands/commands.h"
#include "solver/commands/commands_intake.h"
#include "solver/commands/exit_status.h"
#include "solver/ending/signals.h"
#include "solver/equations/blas.h"
#include "solver/results/file_error.h"
#include "solver/results/folder_lock.h"
#include "solver/version.h"
#include "viz/paraview/paraview_opener.h"
#include "viz/report/pages.h"
#include "viz/run/pictures.h"
#include "viz/sheet/intake_sheet.h"
#include "viz/vary/vary.h"

#include <CLI/CLI.hpp>
#include <deal.II/base/multithread_info.h>

#include <malloc.h>
#include <unistd.h>

#include <algorithm>
#include <filesystem>
#include <functional>
#include <iostream>

namespace
{
using namespace overbend;
using solver::CommandOptions;

const char *const description =
    "Overbend: plans the straightening of a bowed or twisted neck by clamping and heat.\n"
    "It gives estimates, not orders; read the cautions it prints.";

void add_case(CLI::App &command, CommandOptions &options)
{
  command.add_option("case", options.case_file, "Case file")->required()->type_name("FILE");
}

void add_run(CLI::App &command, CommandOptions &options)
{
  add_case(command, options);
  command
      .add_option("-o,--output,--results", options.folder,
                  "Folder for the results (default: the case's name with -plan or -run)")
      ->type_name("DIR");
  command.add_flag("--replace", options.replace, "Replace the results of an earlier run in it");
  command.add_flag("--timing", options.timing, "Print where the time went");
  command.add_flag("--quiet", options.quiet, "No progress line, and only the outcome");
}

void add_intake(CLI::App &app, solver::IntakeOptions &options, std::function<void()> &work)
{
  CLI::App *sheet = app.add_subcommand("sheet", "Write a sheet to print and fill in at the bench");
  sheet->add_option("preset", options.preset, "Preset whose usual values it shows");
  sheet->add_option("-o,--output", options.file, "File to write (default: intake-sheet.html)")
      ->type_name("FILE.html");
  sheet->add_flag("--all", options.all, "Every key, also those that have usual values");
  sheet->add_flag("--replace", options.replace, "Replace a file that is there");
  options.write_sheet = [](const std::string &preset, bool all) {
    return viz::intake_sheet(preset, all ? viz::SheetExtent::all : viz::SheetExtent::needed);
  };
  sheet->callback([&] {
    if (options.file.empty())
      options.file = "intake-sheet.html";
    work = [&] { solver::sheet_command(options); };
  });

  CLI::App *ask = app.add_subcommand("ask", "Answer questions, get a case file");
  ask->add_option("case", options.file, "Case file to write")->required()->type_name("FILE");
  ask->add_option("--preset", options.preset, "Preset to start from");
  ask->add_flag("--all", options.all, "Ask for every key, also those that have usual values");
  ask->add_flag("--continue", options.resume, "Go on with a file that it wrote before");
  ask->add_flag("--replace", options.replace, "Replace a file that is there");
  ask->callback([&] {
    options.to_terminal = isatty(STDIN_FILENO) != 0;
    work = [&] { solver::ask_command(options, std::cin, std::cout); };
  });
}

// What of the pictures a run makes at its end.
struct PictureChoice
{
  bool no_pictures = false, no_film = false;
};

void add_picture_flags(CLI::App &command, PictureChoice &choice)
{
  command.add_flag("--no-pictures", choice.no_pictures, "Draw no pictures and no film at the end");
  command.add_flag("--no-film", choice.no_film, "Draw the pictures but no film");
}

// A machine that cannot draw is no fault of the run: the reason is said, and it goes on. Returns
// the reason why there are no pictures.
std::string draw(const std::string &folder, const PictureChoice &choice)
{
  if (choice.no_pictures)
    return "";
  const viz::Pictures drawn = viz::draw_pictures(folder);
  std::string why_not = drawn.why_not;
  if (!drawn.pictures.empty() && !choice.no_film)
    why_not += (why_not.empty() ? "" : "; ") + viz::draw_animation(folder).why_not;
  if (!why_not.empty())
    std::cerr << "Note: " << why_not << "\n";
  return drawn.pictures.empty() ? why_not : "";
}

void add_pictures(CLI::App &app, std::string &folder, PictureChoice &choice,
                  std::function<void()> &work)
{
  CLI::App *pictures =
      app.add_subcommand("pictures", "Draw the pictures of a results folder again");
  pictures->add_option("folder", folder, "Folder of a plan or a simulation")
      ->required()
      ->type_name("DIR");
  pictures->add_flag("--no-film", choice.no_film, "Draw the pictures but no film");
  pictures->callback([&] {
    work = [&] {
      const solver::FolderLock lock(folder);
      const std::string why_not = draw(folder, choice);
      if (!why_not.empty())
        throw solver::FileError(folder, "has no pictures now", "see the note above");
      for (const viz::Picture &picture : viz::drawn_pictures(folder).pictures)
        std::cout << picture.file << ": " << picture.caption << "\n";
    };
  });
}

void add_vary(CLI::App &app, viz::VaryOptions &options, std::function<void()> &work)
{
  CLI::App *vary =
      app.add_subcommand("vary", "What if: plan a case once for each value of some entries");
  vary->add_option("case", options.case_file, "Case file")->required()->type_name("FILE");
  vary->add_option("--set", options.set, "An entry and its values: \"schedule.hold = 2 h, 4 h\"")
      ->required()
      ->type_name("ENTRY=VALUES")
      ->expected(1)
      ->multi_option_policy(CLI::MultiOptionPolicy::TakeAll);
  vary->add_option("-o,--output", options.folder,
                   "Folder for the plans and their table (default: the case's name with -vary)")
      ->type_name("DIR");
  vary->add_option("--at-once", options.at_once, "Plans that run at the same time")
      ->capture_default_str()
      ->check(CLI::Range(1, 64));
  vary->add_flag("--list", options.only_list, "Print the commands, run nothing");
  vary->callback([&] {
    work = [&] {
      options.program = std::filesystem::read_symlink("/proc/self/exe").string();
      viz::vary(options, std::cout);
    };
  });
}

void refuse_unknown_command(const CLI::App &app, const std::string &typed)
{
  if (typed.empty() || typed.front() == '-')
    return;
  std::vector<std::string> known;
  for (const CLI::App *command : app.get_subcommands([](const CLI::App *) { return true; }))
    known.push_back(command->get_name());
  if (std::find(known.begin(), known.end(), typed) != known.end())
    return;
  std::cerr << "There is no command \"" << cases::printable(typed) << "\"; "
            << cases::suggestion(typed, known, "commands") << "\n";
  solver::leave(solver::Exit::users_mistake);
}

// Fields of a step come and go; giving their memory back and asking for it anew costs a page fault
// for each 4 KiB, up to a fifth of a run.
void keep_freed_memory()
{
  mallopt(M_MMAP_THRESHOLD, 32 << 20); // the most there is
  mallopt(M_TRIM_THRESHOLD, 1 << 30);
}
// Everything that the command line can say, and the work that it asks for.
struct Parsed
{
  CommandOptions options;
  solver::IntakeOptions intake;
  viz::VaryOptions variation;
  PictureChoice pictures;
  std::string preset = "electric", what, name, mesh_file, plan_folder;
  std::function<void()> work;
};

void add_check(CLI::App &app, Parsed &p)
{
  CLI::App *check = app.add_subcommand("check", "Read and check a case file");
  add_case(*check, p.options);
  check->add_flag("--quiet", p.options.quiet, "Say only whether it is complete");
  check->callback([&] { p.work = [&] { solver::check_command(p.options); }; });
}

void add_plan(CLI::App &app, Parsed &p)
{
  CLI::App *plan = app.add_subcommand("plan", "Plan the straightening");
  add_run(*plan, p.options);
  plan->add_flag("--full", p.options.full, "Print the whole text, with every step and table");
  add_picture_flags(*plan, p.pictures);
  plan->callback([&] { p.work = [&] { solver::plan_command(p.options); }; });
}

void add_report(CLI::App &app, Parsed &p)
{
  CLI::App *report = app.add_subcommand("report", "Write bench card and report of a plan again");
  report->add_option("folder", p.plan_folder, "Folder of a finished plan")
      ->required()
      ->type_name("DIR");
  report->callback([&] {
    p.work = [&] {
      const solver::FolderLock lock(p.plan_folder);
      viz::write_pages(p.plan_folder);
      std::cout << "Bench card, report and index written to the folder "
                << cases::printable(p.plan_folder) << ".\n";
    };
  });
}

void add_simulate(CLI::App &app, Parsed &p)
{
  CLI::App *simulate = app.add_subcommand(
      "simulate", "Run the stages exactly as the file lists them, without looking for a plan");
  add_run(*simulate, p.options);
  add_picture_flags(*simulate, p.pictures);
  simulate->callback([&] { p.work = [&] { solver::simulate_command(p.options); }; });
}

void add_mesh(CLI::App &app, Parsed &p)
{
  CLI::App *mesh = app.add_subcommand("mesh", "Mesh the neck and report on the mesh");
  add_case(*mesh, p.options);
  mesh->add_option("-o,--output", p.mesh_file, "Mesh file to write")->type_name("FILE.msh");
  mesh->add_flag("--replace", p.options.replace, "Replace a file that is there");
  mesh->callback([&] { p.work = [&] { solver::mesh_command(p.options, p.mesh_file); }; });
}

void add_tables(CLI::App &app, Parsed &p)
{
  CLI::App *list = app.add_subcommand("list", "List what the tables hold, with sources and marks");
  list->add_option("what", p.what,
                   "woods, glues, strings, tuners, bars, finishes, limits or presets")
      ->required()
      ->check(CLI::IsMember(
          {"woods", "glues", "strings", "tuners", "bars", "finishes", "limits", "presets"}));
  list->add_option("name", p.name, "One entry, or all");
  list->callback([&] { p.work = [&] { solver::list_command(p.what, p.name); }; });
  CLI::App *show = app.add_subcommand("template", "Print a case file with every key explained");
  show->add_option("preset", p.preset, "Preset to start from")->capture_default_str();
  show->callback([&] { p.work = [&] { solver::template_command(p.preset); }; });
}

// In the order in which they are met: a case, its plan, then what stands behind it.
void add_commands(CLI::App &app, Parsed &p)
{
  add_intake(app, p.intake, p.work);
  add_check(app, p);
  add_plan(app, p);
  add_vary(app, p.variation, p.work);
  add_report(app, p);
  add_pictures(app, p.plan_folder, p.pictures, p.work);
  add_simulate(app, p);
  add_mesh(app, p);
  add_tables(app, p);
  for (CLI::App *command : app.get_subcommands({}))
    command->footer(solver::examples_of(command->get_name()));
}

// Only here is known what draws and writes pages.
void connect_pages(Parsed &p)
{
  p.options.write_opener = [&p](const std::string &folder) {
    viz::write_paraview_opener(folder, viz::opener_view(folder));
    draw(folder, p.pictures);
  };
  p.options.write_pages = [](const std::string &folder) { viz::write_pages(folder); };
}

// Ends the program where there is nothing to do, or nothing that could be understood.
void parse(CLI::App &app, int argc, char **argv)
{
  refuse_unknown_command(app, argc > 1 ? argv[1] : "");
  try {
    app.parse(argc, argv);
  } catch (const CLI::ParseError &error) {
    if (app.exit(error) != 0)
      solver::leave(solver::Exit::users_mistake);
    solver::leave(solver::guarded([] {}, "")); // help was printed
  }
  if (app.get_subcommands().empty()) {
    std::cout << app.help();
    solver::leave(solver::Exit::users_mistake);
  }
}
} // namespace

int main(int argc, char **argv)
{
  keep_freed_memory();
  solver::end_tidily_on_signals();
  CLI::App app(description, "overbend");
  app.footer(solver::all_examples());
  app.require_subcommand(0, 1);
  app.set_version_flag("--version", "overbend " OVERBEND_VERSION " (" OVERBEND_GIT_HASH ")");
  Parsed parsed;
  connect_pages(parsed);
  add_commands(app, parsed);
  parse(app, argc, argv);
  solver::pin_blas_to_one_thread();
  dealii::MultithreadInfo::set_thread_limit(1); // bytes of the results are promised
  const std::string &case_file = parsed.options.case_file;
  solver::leave(solver::guarded(parsed.work, case_file.empty() ? parsed.intake.file : case_file));
}
