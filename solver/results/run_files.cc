// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/results/run_files.h"

#include "solver/results/file_error.h"

#include <algorithm>
#include <array>
#include <filesystem>
#include <vector>

namespace overbend::solver
{
namespace
{
namespace fs = std::filesystem;

constexpr const char *pictures_folder = "pictures";

// What tells people to act comes first: it is removed first.
constexpr std::array<const char *, 20> names = {"bench-card.html",
                                                "report.html",
                                                "index.html",
                                                "plan.txt",
                                                "plan.json",
                                                "readings.txt",
                                                "readings.csv",
                                                "gaps.csv",
                                                "results.xdmf",
                                                "results.h5",
                                                "open_in_paraview.py",
                                                "record.txt",
                                                "pictures/pictures.json",
                                                "pictures/history.json",
                                                "pictures/beside_straight.png",
                                                "pictures/stress.png",
                                                "pictures/strength.png",
                                                "pictures/slip.png",
                                                "pictures/temperature.png",
                                                "pictures/history.mp4"};

// Endings under which a file is written before it gets its name.
constexpr std::array<const char *, 2> unfinished = {".tmp", ".part"};

std::size_t place_in_list(const std::string &name)
{
  return std::size_t(std::find(names.begin(), names.end(), name) - names.begin());
}

std::string finished_name(const std::string &name)
{
  const fs::path path(name);
  const bool part = std::find(unfinished.begin(), unfinished.end(), path.extension().string()) !=
                    unfinished.end();
  return part ? name.substr(0, name.size() - path.extension().string().size()) : name;
}

std::string kind_in_words(fs::file_type type)
{
  switch (type) {
  case fs::file_type::regular:
    return "";
  case fs::file_type::directory:
    return " (a folder)";
  case fs::file_type::symlink:
    return " (a link)";
  case fs::file_type::block:
  case fs::file_type::character:
    return " (a device)";
  default:
    return " (no file)";
  }
}

struct Contents
{
  std::vector<std::string> of_a_run, others;
  bool pictures = false;
};

// Links are not followed: what they name lies elsewhere and is someone else's.
void sort_out(const fs::path &folder, const std::string &inside, Contents &contents)
{
  for (const fs::directory_entry &entry : fs::directory_iterator(folder / inside)) {
    const std::string name = (fs::path(inside) / entry.path().filename()).string();
    const fs::file_type type = entry.symlink_status().type();
    if (name == pictures_folder && type == fs::file_type::directory) {
      contents.pictures = true;
      sort_out(folder, name, contents);
    } else if (type == fs::file_type::regular && written_by_a_run(name))
      contents.of_a_run.push_back(name);
    else
      contents.others.push_back(name + kind_in_words(type));
  }
}

void refuse_others(const std::string &folder, std::vector<std::string> others)
{
  if (others.empty())
    return;
  constexpr std::size_t most = 5;
  std::sort(others.begin(), others.end());
  std::string list;
  for (std::size_t k = 0; k < std::min(most, others.size()); ++k)
    list += (k > 0 ? ", " : "") + others[k];
  if (others.size() > most)
    list += " and " + std::to_string(others.size() - most) + " more";
  throw FileError(folder, "holds what no run wrote: " + list,
                  "nothing was removed; move it elsewhere, or name another folder with --output");
}
} // namespace

bool written_by_a_run(const std::string &relative_name)
{
  return place_in_list(finished_name(relative_name)) < names.size();
}

void clear_run(const std::string &folder)
{
  const fs::path path(folder);
  try {
    Contents contents;
    sort_out(path, "", contents);
    refuse_others(folder, contents.others);
    std::sort(contents.of_a_run.begin(), contents.of_a_run.end(),
              [](const std::string &a, const std::string &b) {
                return place_in_list(finished_name(a)) < place_in_list(finished_name(b));
              });
    for (const std::string &name : contents.of_a_run)
      fs::remove(path / name);
    if (contents.pictures)
      fs::remove(path / pictures_folder);
  } catch (const fs::filesystem_error &error) {
    throw FileError(error.path1().string(), "cannot be removed (" + error.code().message() + ")",
                    "check the rights of the folder, or name another with --output");
  }
}
} // namespace overbend::solver
