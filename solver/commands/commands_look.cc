// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/commands/commands.h"

#include "cases/case/first_pass.h"
#include "cases/declare/presets.h"
#include "cases/read/read_case.h"
#include "cases/read/set_up_open.h"
#include "cases/show/manual.h"
#include "cases/text/printable.h"
#include "cases/text/units.h"
#include "mesh/make_neck_mesh.h"
#include "mesh/mesh_report.h"
#include "solver/commands/mesh_file.h"
#include "solver/text/plan_text.h"
#include "solver/verdict/verdict.h"
#include "solver/words/shop_words.h"

#include <filesystem>
#include <iostream>
#include <sstream>

namespace overbend::solver
{
namespace
{
template <typename Entry>
std::vector<std::string> names_of(const std::vector<Entry> &entries)
{
  std::vector<std::string> names;
  for (const Entry &entry : entries) {
    names.push_back(entry.name);
    names.insert(names.end(), entry.aliases.begin(), entry.aliases.end());
  }
  return names;
}

void print_entry(const materials::Entry &entry)
{
  std::cout << entry.name;
  for (const std::string &alias : entry.aliases)
    std::cout << (&alias == &entry.aliases.front() ? "  (also: " : ", ") << alias;
  std::cout << (entry.aliases.empty() ? "\n" : ")\n");
  for (const auto &[key, value, unit, spread, mark, source] : materials::rows(entry))
    std::cout << "  " << key << " = " << value << (unit == "1" ? "" : " " + unit)
              << "   spread: " << spread << "   [" << mark << "] " << source << "\n";
  for (const std::string &missing : entry.missing)
    std::cout << "  missing: " << missing << "\n";
}

template <typename Entry>
void print_names(const std::vector<Entry> &entries, const std::string &what)
{
  for (const Entry &entry : entries) {
    std::cout << "  " << entry.name;
    for (const std::string &alias : entry.aliases)
      std::cout << (&alias == &entry.aliases.front() ? "  (also: " : ", ") << alias;
    std::cout << (entry.aliases.empty() ? "" : ")") << "\n";
  }
  std::cout << "`overbend list " << what << " NAME` prints the numbers of one with unit, spread, "
            << "mark and source; `overbend list " << what << " all` those of all.\n"
            << "Marks: S read in the source, M from memory of it, E estimate or common practice "
               "without a source, C computed.\n";
}

template <typename Entry, typename Find>
void print_table(const std::vector<Entry> &entries, const std::string &what,
                 const std::string &name, const Find &find)
{
  if (name.empty())
    print_names(entries, what);
  else if (name == "all")
    for (const Entry &entry : entries)
      print_entry(entry);
  else
    print_entry(find(name));
}

// What finishes, glues and tuners bear stands with them.
void print_limits(const materials::Tables &t)
{
  std::cout << "Where a correction has to stop, and what is too small to work on:\n";
  print_entry(t.limits);
  std::cout << "Heat that a finish bears: `overbend list finishes all` (prints_from, keep_below); "
               "that a glue line bears: `overbend list glues all` (temperature_limit); pull on a "
               "tuner: `overbend list tuners all` (along_limit; what the strings pull every day "
               "counts too).\n";
}

void print_presets(const std::string &name)
{
  if (!name.empty() && name != "all" && cases::find_preset(name) == nullptr)
    cases::preset_case(name); // throws with the nearest name
  for (const cases::Preset &preset : cases::presets()) {
    const bool chosen = name == "all" || (!name.empty() && &preset == cases::find_preset(name));
    if (name.empty() || chosen)
      std::cout << "  " << preset.name << ": " << preset.sentence << "\n";
    if (chosen)
      std::cout << preset.text << "\n";
  }
  std::cout << "Sizes are middling values of the trade (common practice, no source); heights of "
               "strings, posts and forces of rods are estimates [E].\n";
}
} // namespace

cases::KnownNames known_names(const materials::Tables &tables)
{
  cases::KnownNames known;
  known.woods = names_of(tables.woods);
  known.glues = names_of(tables.glues);
  known.string_sets = names_of(tables.string_sets);
  known.tuners = names_of(tables.tuners);
  known.strings_of = [&tables](const std::string &set) {
    return unsigned(tables.string_set(set).strings.size());
  };
  return known;
}

cases::Case read_checked_case(const std::string &path, const materials::Tables &tables)
{
  cases::Case the_case = cases::read_case(path);
  cases::check_names(the_case, known_names(tables));
  return the_case;
}

Record record_of(const cases::Case &the_case, const materials::Tables &tables)
{
  std::vector<std::pair<std::string, std::string>> hashes;
  for (const materials::TableFile &file : tables.files)
    hashes.emplace_back(file.name, file.sha256);
  Record record = make_record(the_case.file, the_case.text, hashes, loop_threads);
  record.blas += " on one thread";
  return record;
}

namespace
{
// What needs no simulation to be refused, said before one is waited for.
void say_what_plan_will_refuse(const cases::Case &c, const materials::Tables &tables)
{
  const Verdict asked = refuse_before(cases::as_it_stands(c), tables);
  if (!asked.refused())
    return;
  const bool other_may_do =
      cases::fixes_set_up(c) &&
      !refuse_before(cases::as_it_stands(cases::with_set_up_open(c)), tables).refused();
  std::ostringstream out;
  out << (other_may_do ? "`plan` will not take this set-up and will choose another:\n"
                       : "`plan` will refuse it (" + in_words(asked.kind) + "):\n");
  for (const std::string &reason : asked.reasons)
    out << folded(reason, "  - ", "    ");
  std::cout << out.str();
}
} // namespace

void check_command(const CommandOptions &options)
{
  const cases::Case c = read_checked_case(options.case_file, materials::tables());
  std::cout << cases::printable(options.case_file) << ": complete, and nothing in it contradicts";
  if (!c.title.empty())
    std::cout << " (\"" << c.title << "\")";
  std::cout << "\n";
  if (!options.quiet)
    std::cout << case_in_short(c);
  say_what_plan_will_refuse(c, materials::tables());
}

void template_command(const std::string &preset)
{
  std::cout << cases::template_case(preset);
}

void mesh_command(const CommandOptions &options, const std::string &file)
{
  const cases::Case c = read_checked_case(options.case_file, materials::tables());
  const std::string path =
      file.empty() ? std::filesystem::path(options.case_file).stem().string() + ".msh" : file;
  check_mesh_file(path, options.replace);
  const mesh::NeckMesh neck = mesh::make_neck_mesh(c.neck, c.numerics.resolution);
  const mesh::MeshReport report = mesh::report(neck);
  std::cout << report.cells << " cells, " << report.nodes << " nodes, " << report.unknowns
            << " unknowns\nleast scaled Jacobian " << fixed(report.least_scaled_jacobian, 3)
            << " at " << mesh::describe_place(report.worst_place, neck) << "\n";
  for (const auto &[piece, volume] : report.volume)
    std::cout << "  " << mesh::name(piece) << ": " << fixed(volume * 1e6, 2) << " cm3\n";
  for (const auto &[face, area] : report.area)
    std::cout << "  " << mesh::name(face) << ": " << report.faces.at(face) << " faces, "
              << fixed(area * 1e4, 2) << " cm2\n";
  write_mesh(neck, path);
  std::cout << "Mesh in " << cases::printable(path)
            << " (Gmsh's format, quadratic cells, named pieces and faces)\n";
}

void list_command(const std::string &what, const std::string &name)
{
  const materials::Tables &t = materials::tables();
  if (what == "woods")
    print_table(
        t.woods, what, name, [&](auto &n) -> auto & { return t.wood(n); });
  else if (what == "glues")
    print_table(
        t.glues, what, name, [&](auto &n) -> auto & { return t.glue(n); });
  else if (what == "strings")
    print_table(
        t.string_sets, what, name, [&](auto &n) -> auto & { return t.string_set(n); });
  else if (what == "tuners")
    print_table(
        t.tuners, what, name, [&](auto &n) -> auto & { return t.tuner(n); });
  else if (what == "finishes")
    print_table(
        t.finishes, what, name, [&](auto &n) -> auto & { return t.finish(n); });
  else if (what == "limits")
    print_limits(t);
  else if (what == "bars")
    print_table(
        t.bars, what, name, [&](auto &n) -> auto & { return t.bar(n); });
  else
    print_presets(name);
}
} // namespace overbend::solver
