// SPDX-License-Identifier: GPL-3.0-or-later
#include "viz/vary/vary.h"

#include "cases/read/read_case.h"
#include "cases/text/error.h"
#include "cases/text/printable.h"
#include "solver/results/file_error.h"
#include "solver/results/folder_lock.h"
#include "solver/results/record.h"
#include "solver/results/text_file.h"
#include "viz/programs/child_program.h"
#include "viz/vary/member.h"
#include "viz/vary/table.h"

#include <algorithm>
#include <atomic>
#include <chrono>
#include <cstdlib>
#include <filesystem>
#include <mutex>
#include <ostream>
#include <thread>

namespace overbend::viz
{
namespace
{
namespace fs = std::filesystem;

constexpr std::size_t most_members = 1000;
constexpr std::chrono::hours longest_plan{6};

std::vector<cases::Variation> variations_of(const VaryOptions &options)
{
  std::vector<cases::Variation> all;
  for (const std::string &text : options.set)
    try {
      all.push_back(cases::parse_variation(text));
    } catch (const cases::UnitError &error) {
      throw cases::CaseError("--set \"" + text + "\"", 0, error.problem, error.remedy);
    }
  return all;
}

std::vector<cases::Variant> variants_of(const cases::Document &base,
                                        const std::vector<cases::Variation> &variations)
{
  std::size_t count = 1;
  for (const cases::Variation &one : variations)
    count *= one.values.size();
  if (count > most_members)
    throw cases::CaseError(
        "--set", 0, std::to_string(count) + " cases are more than " + std::to_string(most_members),
        "vary fewer entries, or give them fewer values");
  try {
    return cases::variants(base, variations);
  } catch (const cases::UnitError &error) {
    throw cases::CaseError(base.file, 0, error.problem, error.remedy);
  }
}

// Tables of air stand beside a case.
void copy_what_it_names(const cases::Document &base, const std::string &folder)
{
  for (const cases::Section &section : base.sections)
    for (const cases::Entry &entry : section.entries)
      if (entry.key == "climate_file") {
        const fs::path from = fs::path(base.file).parent_path() / entry.text;
        std::error_code failed;
        fs::copy_file(from, fs::path(folder) / fs::path(entry.text).filename(),
                      fs::copy_options::overwrite_existing, failed);
        if (failed)
          throw solver::FileError(from.string(), "cannot be copied (" + failed.message() + ")",
                                  "see that it is there and the disk has room");
      }
}

std::vector<Member> members_in(const std::string &folder, std::vector<cases::Variant> variants)
{
  std::vector<Member> members;
  for (cases::Variant &variant : variants) {
    Member member;
    member.number = members.size() + 1;
    member.folder = (fs::path(folder) / std::to_string(member.number)).string();
    member.case_file = member.folder + ".toml";
    member.variant = std::move(variant);
    solver::write_text_file(member.case_file, member.variant.text);
    members.push_back(std::move(member));
  }
  return members;
}

// What a folder is a study of: its first file. A folder that holds something else, or another
// study, is left alone: its cases have the same names.
void claim_study(const std::string &folder, const VaryOptions &options, const std::string &base)
{
  std::string study = "Study by overbend vary\ncase SHA-256: " + solver::sha256(base) + "\n";
  for (const std::string &set : options.set)
    study += "set: " + set + "\n";
  const fs::path mark = fs::path(folder) / "study.txt";
  std::error_code failed;
  fs::create_directories(folder, failed);
  if (failed)
    throw solver::FileError(folder, "cannot be made (" + failed.message() + ")",
                            "name another folder with --output");
  if (fs::is_empty(folder, failed) && !failed)
    return solver::write_text_file(mark.string(), study);
  if (!fs::exists(mark) || cases::read_text(mark.string()) != study)
    throw solver::FileError(folder,
                            "holds something else, or a study of other values or of a case "
                            "that has changed",
                            "name another folder with --output, or remove this one");
}

std::string last_line(std::string text)
{
  while (!text.empty() && text.back() == '\n')
    text.pop_back();
  const std::size_t line = text.rfind('\n');
  return line == std::string::npos ? text : text.substr(line + 1);
}

void plan_one(const std::string &program, Member &member)
{
  const ChildEnd end = run_program(plan_words(program, member), "", longest_plan);
  if (!end.went_well() || !is_planned(member))
    member.why_not = end.errors.empty() ? "it ended without a word" : last_line(end.errors);
}

std::string time_left(std::size_t done, std::size_t all, std::chrono::steady_clock::duration taken)
{
  if (done == 0 || done == all)
    return "";
  const double minutes =
      std::chrono::duration<double>(taken).count() / 60 * double(all - done) / double(done);
  return ", about " + std::to_string(long(minutes) + 1) + " min left";
}

// Plans what is not planned yet, several at once.
void plan_all(const VaryOptions &options, std::vector<Member> &members, std::ostream &out)
{
  std::vector<Member *> open;
  for (Member &member : members)
    if (!is_planned(member))
      open.push_back(&member);
  if (open.empty())
    return;
  // Loops of two threads are worth less than two plans.
  if (options.at_once > 1)
    setenv("OMP_NUM_THREADS", "1", 1);
  std::atomic<std::size_t> next{0};
  std::size_t done = 0;
  std::mutex printing;
  const auto start = std::chrono::steady_clock::now();
  const auto work = [&] {
    for (std::size_t k = next++; k < open.size(); k = next++) {
      plan_one(options.program, *open[k]);
      const std::lock_guard<std::mutex> lock(printing);
      ++done;
      out << "case " << open[k]->number << " planned: " << done << " of " << open.size()
          << time_left(done, open.size(), std::chrono::steady_clock::now() - start) << std::endl;
    }
  };
  std::vector<std::thread> threads;
  for (int k = 1; k < options.at_once; ++k)
    threads.emplace_back(work);
  work();
  for (std::thread &thread : threads)
    thread.join();
}

// As a shell takes it for one word.
std::string quoted(const std::string &word)
{
  std::string out = "'";
  for (const char letter : word)
    out += letter == '\'' ? std::string("'\\''") : std::string(1, letter);
  return out + "'";
}

void list_commands(const VaryOptions &options, const std::vector<Member> &members,
                   std::ostream &out)
{
  for (const Member &member : members) {
    std::string line;
    for (const std::string &word : plan_words(options.program, member))
      line += (line.empty() ? "" : " ") + quoted(word);
    out << line << "\n";
  }
}
} // namespace

void vary(const VaryOptions &options, std::ostream &out)
{
  const cases::Document base =
      cases::parse_document(cases::read_text(options.case_file), options.case_file);
  cases::read_case(options.case_file); // says what is wrong with it before anything is written
  const std::vector<cases::Variation> variations = variations_of(options);
  std::vector<cases::Variant> variants = variants_of(base, variations);
  const std::string folder = options.folder.empty()
                                 ? fs::path(options.case_file).stem().string() + "-vary"
                                 : options.folder;
  claim_study(folder, options, base.text);
  const solver::FolderLock lock(folder);
  copy_what_it_names(base, folder);
  std::vector<Member> members = members_in(folder, std::move(variants));
  if (options.only_list)
    return list_commands(options, members, out);
  plan_all(options, members, out);
  std::vector<std::string> varied;
  for (const cases::Variation &one : variations)
    varied.push_back(one.field->name());
  const StudyTable table = study_table(varied, members);
  const fs::path into(folder);
  solver::write_text_file((into / "table.txt").string(), as_text(table));
  solver::write_text_file((into / "table.csv").string(), as_csv(table));
  solver::write_text_file(
      (into / "table.html").string(),
      as_page(table, "What if: " + fs::path(options.case_file).stem().string()));
  out << "\n"
      << as_text(table) << "\nIn the folder " << cases::printable(folder)
      << ": table.html, table.csv, table.txt, and each plan under its number.\n";
}
} // namespace overbend::viz
