// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "viz/drawing/bench_shapes.h"
#include "viz/drawing/canvas.h"
#include "viz/run/edge_frame.h"

namespace overbend::viz
{
// Largest of a list of round magnifications at which displacements (3 a node, m) of a mesh, seen
// along a direction, fit into a strip of `aspect` (height over width), of the neck from an x on
// (m). At least 1.
double fitting_magnification(const std::vector<double> &nodes,
                             const std::vector<std::vector<double>> &displacements,
                             const Vec3 &towards, double aspect, double from_x = -1);

// The neck from the bass side as a straightedge meets it, without most of the headstock: the neck,
// the outline of the straight one, the line from rest fret to rest fret, and the bow as a stroke
// between that line and the board.
class SideView
{
public:
  SideView(const solver::MeshData &mesh, const cases::Case &the_case, const NeckShapes &shapes,
           const BenchShapes &bench);

  // Chooses how much larger bending is drawn, so that all of these states fit into a strip of that
  // aspect; displacements as EdgeFrame leaves them.
  void fit(const std::vector<std::vector<double>> &states, double aspect);
  double times() const { return magnification; }

  // Places of the mesh's nodes, drawn larger.
  std::vector<Vec3> places(const std::vector<double> &seen) const;
  // What belongs to the neck at these places; `surface` is drawn as it is given.
  void draw(Canvas &canvas, vtkRenderer *strip, vtkSmartPointer<vtkActor> surface,
            const std::vector<Vec3> &places, const solver::OnBench &on_bench) const;

private:
  void draw_straight(vtkRenderer *strip) const;
  void draw_frets(Canvas &canvas, vtkRenderer *strip, const std::vector<Vec3> &places) const;
  void draw_chord(vtkRenderer *strip, const std::vector<Vec3> &places) const;

  const solver::MeshData &mesh;
  const cases::Case &the_case;
  const BenchShapes &bench;
  EdgeFrame frame;
  double magnification = 1;
  std::vector<std::size_t> top_node;          // by fret, from 0
  vtkSmartPointer<vtkPolyData> straight_neck; // its surface
  std::vector<Vec3> in_frame;                 // points that the picture has to hold
};
} // namespace overbend::viz
