// SPDX-License-Identifier: GPL-3.0-or-later
#include "viz/drawing/views.h"

#include "solver/results/file_error.h"

#include <cmath>
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

ColourScale from_zero(double most, const std::string &title)
{
  ColourScale scale{0, round_up(most), title};
  if (scale.to <= 0)
    scale.to = 1; // nothing happened: all in the lowest colour
  const double first = scale.to / std::pow(10., std::floor(std::log10(scale.to) + 1e-9));
  const bool by_four =
      std::abs(first - 2) < 1e-6 || std::abs(first - 4) < 1e-6 || std::abs(first - 8) < 1e-6;
  const bool by_three =
      std::abs(first - 1.5) < 1e-6 || std::abs(first - 3) < 1e-6 || std::abs(first - 6) < 1e-6;
  scale.labels = by_four ? 5 : by_three ? 4 : 6;
  return scale;
}

ColourScale temperature_scale(const RunStory::Extreme &extreme)
{
  ColourScale scale{10 * std::floor(extreme.least / 10), 10 * std::ceil(extreme.largest / 10),
                    "temperature, \u00b0C (\u00b0F: 1.8 times that, and 32)"};
  if (scale.to <= scale.from)
    scale.to = scale.from + 10;
  scale.labels = 1 + int(std::lround((scale.to - scale.from) / 10));
  return scale;
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
