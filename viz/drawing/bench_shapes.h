// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cases/case/case.h"
#include "solver/results/results.h"
#include "viz/drawing/neck_shapes.h"
#include "viz/run/bench_places.h"

#include <vtkRenderer.h>

#include <string>
#include <vector>

namespace overbend::viz
{
// What a bench hand knows his place by: frets and nut on the board, and, where they are on, cradle,
// cords and bar, drawn lightly as lines. They go along with the neck where they touch it.
class BenchShapes
{
public:
  BenchShapes(const std::string &folder, const cases::Case &the_case, const solver::MeshData &mesh);

  // Frets as lines across the top of a surface of NeckShapes, the nut as a thicker one.
  void draw_frets(vtkRenderer *strip, vtkPolyData *surface) const;
  // Cradle and cords of a clamped step, the bar of a heated one; `places` of the mesh's nodes.
  void draw_bench(vtkRenderer *strip, const std::vector<Vec3> &places,
                  const solver::OnBench &on_bench) const;

  // Where fret numbers go: the board's top on the bass edge, as nodes of the mesh.
  struct FretNode
  {
    int fret = 0;
    std::size_t node = 0;
  };
  const std::vector<FretNode> &numbered_frets() const { return numbered; }
  // The node of the mesh nearest to a place of the straight neck.
  std::size_t nearest(const Vec3 &place) const;

private:
  void number_frets();
  void find_nodes();
  void draw_bar(vtkRenderer *strip, const std::vector<Vec3> &places) const;
  void draw_cradle(vtkRenderer *strip, const std::vector<Vec3> &places) const;
  void draw_cords(vtkRenderer *strip, const std::vector<Vec3> &places) const;

  const solver::MeshData &mesh;
  BenchPlaces bench;
  double board_top = 0;                       // z, m
  std::vector<std::size_t> posts, bar_middle; // nodes
  std::size_t cradle = 0;                     // node that lies on it
  std::vector<FretNode> numbered;
};
} // namespace overbend::viz
