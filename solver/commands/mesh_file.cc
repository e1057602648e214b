// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/commands/mesh_file.h"

#include "cases/text/error.h"
#include "mesh/mesh_report.h"
#include "solver/ending/sudden_end.h"
#include "solver/results/file_error.h"
#include "solver/results/text_file.h"

#include <filesystem>
#include <fstream>

namespace overbend::solver
{
namespace
{
namespace fs = std::filesystem;

constexpr const char *ending = ".msh";

// The library says nothing of a write that failed. The last line of its format tells.
bool is_whole(const std::string &path)
{
  const std::string last = "$EndElements\n";
  std::ifstream in(path, std::ios::binary);
  in.seekg(-static_cast<std::streamoff>(last.size()), std::ios::end);
  std::string text(last.size(), ' ');
  return in.read(text.data(), static_cast<std::streamsize>(text.size())) && text == last;
}
} // namespace

void check_mesh_file(const std::string &path, bool replace)
{
  const fs::path file(path);
  if (file.extension() != ending)
    throw cases::CaseError(path, 0, "the name of a mesh file ends in .msh, Gmsh's format",
                           "name it " + fs::path(file).replace_extension(ending).string());
  std::error_code error;
  if (fs::exists(fs::symlink_status(file, error)) && !replace)
    throw FileError(path, "is there already",
                    "name another file with --output, or replace it with --replace");
  if (fs::is_directory(file, error))
    throw FileError(path, "is a folder", "name a file inside it");
  refuse_to_replace_a_device(path);
  if (!fs::is_directory(fs::absolute(file).parent_path(), error))
    throw FileError(path, "cannot be written: its folder is not there", "make the folder first");
}

void write_mesh(const mesh::NeckMesh &neck, const std::string &path)
{
  // The library knows the format by the ending.
  ScratchFile unfinished(fs::path(path).replace_extension(".part.msh").string());
  mesh::export_gmsh(neck, unfinished.path());
  if (!is_whole(unfinished.path()) || !unfinished.keep_as(path))
    throw FileError(path, "could not be written, or not all of it",
                    "check the rights of the folder and the free space on the disk");
}
} // namespace overbend::solver
