// SPDX-License-Identifier: GPL-3.0-or-later
// Who may know whom: fails on an #include that goes against the directions of DEVELOPERS.md.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <map>
#include <regex>
#include <string>
#include <vector>

using ::testing::IsEmpty;

namespace
{
namespace fs = std::filesystem;

// What a folder may include: folders of ours (as a pattern of the quoted path) and what it may not
// include of the libraries.
struct Rule
{
  const char *may;      // quoted includes that match
  const char *must_not; // includes in angle brackets that match
};

const char *const everything_heavy =
    "deal\\.II/.*|gmsh.*|hdf5.*|H5.*|vtk.*|petsc.*|slepc.*|mpi\\.h";

const std::map<std::string, Rule> &rules()
{
  static const std::string materials_libraries =
      // Tensors are all that a law at a point needs.
      "deal\\.II/(?!base/|physics/).*|gmsh.*|hdf5.*|H5.*|vtk.*|petsc.*|slepc.*|mpi\\.h";
  static const std::map<std::string, Rule> all = {
      {"cases", {"cases/.*", everything_heavy}},
      {"materials", {"(cases|materials)/.*", materials_libraries.c_str()}},
      {"mesh",
       {"(cases|mesh)/.*", "deal\\.II/(lac|numerics)/.*|hdf5.*|H5.*|vtk.*|petsc.*|slepc.*"}},
      {"solver", {"(cases|materials|mesh|solver)/.*", "vtk.*"}},
      // Pictures know the case and the results, not how anything was solved.
      {"viz",
       {"(cases|viz)/.*|solver/(ending|results|words)/.*|solver/readings/bench_readings\\.h",
        "deal\\.II/.*|gmsh.*|hdf5.*|H5.*|petsc.*|slepc.*|mpi\\.h"}},
  };
  return all;
}

// The rooms of a folder, each with one job. A room may include itself and the ones before it.
const std::map<std::string, std::vector<std::string>> &rooms()
{
  static const std::map<std::string, std::vector<std::string>> all = {
      {"cases", {"text", "case", "declare", "check", "read", "show", "intake"}},
      {"solver", {"ending",    "results", "words",   "equations", "model", "readings", "climate",
                  "mechanics", "bench",   "history", "strength",  "plan",  "heating",  "job",
                  "verdict",   "report",  "text",    "json",      "run",   "commands"}},
      {"viz",
       {"programs", "page", "plots", "run", "view", "paraview", "sheet", "card", "report", "vary",
        "drawing"}},
  };
  return all;
}

struct Room
{
  std::string folder;
  std::size_t place = 0; // past the end for a file in no room
};

Room room_of(const std::string &path)
{
  const std::string folder = path.substr(0, path.find('/'));
  const auto found = rooms().find(folder);
  if (found == rooms().end())
    return {folder, 0};
  const std::regex in_room(folder + "/([a-z]+)/[^/]+");
  std::smatch match;
  if (!std::regex_match(path, match, in_room))
    return {folder, found->second.size()};
  return {folder, std::size_t(std::find(found->second.begin(), found->second.end(), match[1]) -
                              found->second.begin())};
}

bool against_the_rooms(const std::string &file, const std::string &path)
{
  const Room from = room_of(file), to = room_of(path);
  const auto known = rooms().find(to.folder);
  return from.folder == to.folder && known != rooms().end() && to.place < known->second.size() &&
         to.place > from.place;
}

// The one file that joins everything.
bool is_main(const std::string &file)
{
  return file == "solver/main.cc";
}

std::vector<std::string> violations(const std::string &file, const std::string &text)
{
  const std::string folder = file.substr(0, file.find('/'));
  const Rule &rule = rules().at(folder);
  const std::regex include("^[ \\t]*#[ \\t]*include[ \\t]*([<\"])([^>\"]+)[>\"]");
  std::vector<std::string> found;
  std::istringstream lines(text);
  int number = 0;
  for (std::string line; std::getline(lines, line);) {
    ++number;
    std::smatch match;
    if (!std::regex_search(line, match, include))
      continue;
    const std::string path = match[2];
    const bool ours = match[1] == "\"";
    const bool allowed = ours ? std::regex_match(path, std::regex(rule.may)) ||
                                    (is_main(file) && path.rfind("viz/", 0) == 0)
                              : !std::regex_match(path, std::regex(rule.must_not));
    if (!allowed || (ours && against_the_rooms(file, path)))
      found.push_back(file + ":" + std::to_string(number) + ": " + folder + " must not know " +
                      path);
  }
  return found;
}

std::vector<std::string> violations_in_tree()
{
  std::vector<std::string> found;
  const fs::path root = OVERBEND_SOURCE_DIR;
  for (const auto &[folder, rule] : rules())
    for (const auto &entry : fs::recursive_directory_iterator(root / folder)) {
      const std::string extension = entry.path().extension().string();
      if (extension != ".h" && extension != ".cc")
        continue;
      std::ifstream in(entry.path());
      std::ostringstream text;
      text << in.rdbuf();
      const std::string file = fs::relative(entry.path(), root).generic_string();
      for (const std::string &one : violations(file, text.str()))
        found.push_back(one);
    }
  return found;
}
} // namespace

TEST(IncludeDirections, HoldInTheWholeTree)
{
  EXPECT_THAT(violations_in_tree(), IsEmpty());
}

TEST(IncludeDirections, EveryFileLiesInARoom)
{
  std::vector<std::string> outside;
  const fs::path root = OVERBEND_SOURCE_DIR;
  for (const auto &[folder, names] : rooms())
    for (const auto &entry : fs::recursive_directory_iterator(root / folder)) {
      const std::string extension = entry.path().extension().string();
      const std::string file = fs::relative(entry.path(), root).generic_string();
      if ((extension == ".h" || extension == ".cc") && !is_main(file) &&
          room_of(file).place == names.size())
        outside.push_back(file);
    }
  EXPECT_THAT(outside, IsEmpty());
}

TEST(IncludeDirections, ForbiddenIncludesAreFound)
{
  const std::vector<std::pair<std::string, std::string>> forbidden = {
      {"cases/x.h", "#include \"materials/wood_law.h\""},
      {"cases/x.cc", "#include <deal.II/base/tensor.h>"},
      {"cases/x.cc", "  #  include <gmsh.h>"},
      {"materials/x.cc", "#include \"mesh/neck_mesh.h\""},
      {"materials/x.cc", "#include \"solver/model.h\""},
      {"materials/x.h", "#include <deal.II/grid/tria.h>"},
      {"mesh/x.cc", "#include \"materials/wood_law.h\""},
      {"mesh/x.cc", "#include <deal.II/lac/vector.h>"},
      {"solver/x.cc", "#include \"viz/paraview/paraview_opener.h\""},
      {"solver/model/x.cc", "#include \"solver/history/simulate.h\""},
      {"solver/readings/x.h", "#include \"solver/bench/bench.h\""},
      {"cases/case/x.h", "#include \"cases/read/read_case.h\""},
      {"viz/page/x.cc", "#include \"viz/report/report.h\""},
      {"solver/x.cc", "#include <vtkRenderWindow.h>"},
      {"viz/x.cc", "#include \"solver/mechanics.h\""},
      {"viz/x.cc", "#include \"mesh/neck_mesh.h\""},
      {"viz/x.cc", "#include <hdf5.h>"},
      {"viz/x.cc", "#include \"tests/report.h\""},
  };
  for (const auto &[file, line] : forbidden)
    EXPECT_EQ(violations(file, "// first\n" + line + "\n").size(), 1u) << file << ' ' << line;
}

TEST(IncludeDirections, AllowedIncludesPass)
{
  const std::vector<std::pair<std::string, std::string>> allowed = {
      {"cases/x.cc", "#include <toml++/toml.h>"},
      {"materials/x.cc", "#include \"cases/case/case.h\""},
      {"materials/x.h", "#include <deal.II/base/symmetric_tensor.h>"},
      {"mesh/x.cc", "#include <gmsh.h>"},
      {"mesh/x.h", "#include <deal.II/grid/tria.h>"},
      {"solver/x.cc", "#include \"materials/wood_law.h\""},
      {"solver/x.cc", "#include <hdf5.h>"},
      {"solver/main.cc", "#include \"viz/paraview/paraview_opener.h\""},
      {"viz/x.cc", "#include \"solver/results/results.h\""},
      {"cases/read/x.cc", "#include \"cases/check/checking.h\""},
      {"viz/x.cc", "#include <vtkRenderWindow.h>"},
      {"viz/x.cc", "// #include <hdf5.h>"},
  };
  for (const auto &[file, line] : allowed)
    EXPECT_THAT(violations(file, line + "\n"), IsEmpty());
}
