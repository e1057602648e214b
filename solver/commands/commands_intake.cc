// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/commands/commands_intake.h"

#include "cases/intake/intake.h"
#include "cases/text/document.h"
#include "cases/text/error.h"
#include "materials/tables.h"
#include "solver/commands/commands.h"
#include "solver/ending/sudden_end.h"
#include "solver/results/file_error.h"
#include "solver/results/text_file.h"
#include "solver/words/shop_words.h"

#include <filesystem>
#include <iostream>

namespace overbend::solver
{
namespace
{
namespace fs = std::filesystem;

void refuse_if_there(const IntakeOptions &options, const std::string &remedy)
{
  std::error_code error;
  if (fs::is_directory(options.file, error))
    throw FileError(options.file, "is a folder", "name a file inside it");
  if (fs::exists(fs::symlink_status(options.file, error)) && !options.replace)
    throw FileError(options.file, "is there already", remedy);
  refuse_to_replace_a_device(options.file);
  // Better now than after a hundred answers.
  const fs::path folder = fs::absolute(options.file).parent_path();
  if (!fs::is_directory(folder, error))
    throw FileError(options.file, "cannot be written: its folder is not there",
                    "make the folder first");
}

void keep(const cases::Intake &intake, const IntakeOptions &options, std::string &kept)
{
  if (intake.answers().empty() && kept.empty())
    return;
  const std::string text = intake.answers().case_text();
  if (text != kept)
    write_text_file(options.file, text);
  kept = text;
}

void finish(const cases::Intake &intake, const IntakeOptions &options, const std::string &kept,
            std::ostream &out)
{
  if (kept.empty()) {
    out << "\nNothing was answered, nothing is written.\n";
    return;
  }
  if (const auto problem = intake.answers().problem())
    throw cases::CaseError(options.file, 0,
                           "what was answered is kept, but it is not yet a complete case: " +
                               problem->what,
                           problem->remedy + " (`overbend ask --continue` asks on)");
  const std::string file = cases::printable(options.file);
  out << "\n"
      << file << ": complete, and nothing in it contradicts. Next: overbend plan " << file << "\n";
}
} // namespace

void sheet_command(const IntakeOptions &options)
{
  const std::string sheet = options.write_sheet(options.preset, options.all);
  refuse_if_there(options, "name another file with --output, or replace it with --replace");
  write_text_file(options.file, sheet);
  std::cout << "Intake sheet in " << cases::printable(options.file)
            << ": open it in a browser and print it (A4 or Letter)\n";
}

void ask_command(const IntakeOptions &options, std::istream &in, std::ostream &out)
{
  const AtSuddenEnd when_stopped([file = options.file](const std::string &) {
    return "what was answered so far is kept in " + cases::printable(file) +
           "; go on with --continue";
  });
  cases::Intake intake(known_names(materials::tables()),
                       options.all ? cases::Intake::Extent::all : cases::Intake::Extent::needed);
  std::string kept;
  if (options.resume) {
    kept = cases::read_text(options.file);
    intake.resume(kept, options.file);
  } else {
    refuse_if_there(options, "name another file, go on with --continue, or replace it with "
                             "--replace");
  }
  if (!options.preset.empty())
    intake.choose_preset(options.preset);
  for (const std::string &caution : cases::intake_cautions())
    out << wrapped("!! " + caution + "\n");
  out << "An empty line takes the value in [ ]. help tells the other words.\n\n";
  using State = cases::Intake::State;
  std::string line, heading;
  while (intake.state() == State::asking || intake.state() == State::reviewing) {
    // Asked again after a slip, a question does not repeat the heading.
    if (intake.heading() != heading)
      out << wrapped(intake.heading());
    heading = intake.heading();
    out << wrapped(intake.prompt()) << "> " << std::flush;
    if (!std::getline(in, line))
      break;
    if (!options.to_terminal)
      out << line << "\n";
    out << wrapped(intake.reply(line));
    keep(intake, options, kept);
  }
  finish(intake, options, kept, out);
}
} // namespace overbend::solver
