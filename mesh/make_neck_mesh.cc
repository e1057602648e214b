// SPDX-License-Identifier: GPL-3.0-or-later
#include "mesh/make_neck_mesh.h"

#include "mesh/gmsh_model.h"
#include "mesh/grain_frames.h"
#include "mesh/mesh_report.h"
#include "mesh/neck_blocks.h"
#include "mesh/to_deal_ii.h"

namespace overbend::mesh
{
namespace
{
void set_reading_lines(const NeckProfile &profile, NeckMesh &mesh)
{
  const auto point = [&](double x, double share) {
    const double y = share * profile.half_width(x);
    return dealii::Point<3>(x, y, profile.board_height(y));
  };
  for (int fret = 0; fret <= profile.shape.frets; ++fret) {
    const double x = fret == 0 ? 0.0 : cases::fret_position(profile.shape.scale_length, fret);
    mesh.bass.at_fret.push_back(point(x, -reading_line_share));
    mesh.centre.at_fret.push_back(point(x, 0));
    mesh.treble.at_fret.push_back(point(x, reading_line_share));
  }
}
} // namespace

NeckMesh make_neck_mesh(const cases::NeckShape &shape, double resolution)
{
  const NeckProfile profile(shape);
  return make_neck_mesh(profile, grid_counts(profile, resolution));
}

NeckMesh make_neck_mesh(const NeckProfile &profile, const GridCounts &counts)
{
  const NeckGrid grid(profile, counts);
  NeckMesh mesh;
  add_neck_blocks(grid, mesh.hexes);
  mesh.hexes.finish();
  fill_triangulation(mesh);
  mesh.grain = grain_frames(profile.shape);
  set_reading_lines(profile, mesh);
  mesh.board_length = profile.board_end;
  mesh.body_join = profile.body_join;
  mesh.neck_end = profile.neck_end;
  mesh.channel_end = profile.has_channel ? profile.channel_end : 0;
  report(mesh);                     // refuses cells that are inside out in the mapping in use,
  GmshModel(mesh).least_jacobian(); // and in the model that Gmsh holds
  return mesh;
}
} // namespace overbend::mesh
