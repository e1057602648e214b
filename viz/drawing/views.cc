// SPDX-License-Identifier: GPL-3.0-or-later
#include "viz/drawing/views.h"

#include "solver/results/file_error.h"

#include <filesystem>

namespace overbend::viz
{
namespace
{
namespace fs = std::filesystem;
constexpr double scarf_shift = -0.12; // m
} // namespace

void make_pictures_folder(const std::string &folder)
{
  const std::string path = (fs::path(folder) / "pictures").string();
  std::error_code error;
  fs::create_directories(path, error);
  if (error)
    throw solver::FileError(path, "cannot be made (" + error.message() + ")",
                            "check the rights of the folder");
}

void draw_glue_lines(Canvas &canvas, vtkRenderer *strip, const NeckShapes &shapes,
                     const solver::MeshData &mesh, const std::vector<double> &value,
                     const ColourScale &scale)
{
  const std::vector<Vec3> at = moved(mesh.glue.nodes, {}, 1), neck = moved(mesh.nodes, {}, 1);
  strip->AddActor(edge_actor(shapes.outside(neck), line_light, 1));
  for (std::size_t line = 0; line < mesh.glue.lines.size(); ++line) {
    const auto actor = coloured_actor(shapes.glue_line(line, at, value), scale);
    if (mesh.glue.lines[line].name == "scarf")
      actor->SetPosition(scarf_shift, 0, 0);
    strip->AddActor(actor);
  }
  canvas.look(strip, from_top, neck);
}
} // namespace overbend::viz
