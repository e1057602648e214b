// SPDX-License-Identifier: GPL-3.0-or-later
#include "viz/drawing/side_view.h"

#include "viz/drawing/views.h"

#include <algorithm>
#include <cmath>

namespace overbend::viz
{
namespace
{
constexpr Colour straight_grey = {0.62, 0.62, 0.62}, chord_blue = {0.05, 0.25, 0.6},
                 gap_red = {0.8, 0.1, 0.1};
constexpr double headstock_shown = 0.06; // m behind the nut
constexpr double before_the_neck = -0.1; // y, m: lies before the neck for this view
constexpr double past_rest_fret = 0.012; // m that the line goes on
constexpr double fret_shown = 2.2e-3;    // m
constexpr double head_room = 0.012;      // m over the highest point, for fret numbers

std::vector<Vec3> shown_part(const std::vector<double> &nodes, const std::vector<Vec3> &places,
                             double from_x = -headstock_shown)
{
  std::vector<Vec3> part;
  for (std::size_t n = 0; n < places.size(); ++n)
    if (nodes[3 * n] > from_x)
      part.push_back(places[n]);
  return part;
}

void add_line(vtkRenderer *strip, const Vec3 &from, const Vec3 &to, const Colour &colour,
              double width)
{
  strip->AddActor(path_actor({{from, to}}, colour, width));
}
} // namespace

double fitting_magnification(const std::vector<double> &nodes,
                             const std::vector<std::vector<double>> &displacements,
                             const Vec3 &towards, double aspect, double from_x)
{
  double chosen = 1;
  for (const double m : {2., 3., 4., 5., 6., 8., 10., 12., 15., 20., 25., 30.}) {
    std::vector<Vec3> all;
    for (const auto &u : displacements) {
      const std::vector<Vec3> part = shown_part(nodes, moved(nodes, u, m), from_x);
      all.insert(all.end(), part.begin(), part.end());
    }
    const auto [width, height] = Canvas::extent(towards, all);
    if (height <= aspect * width)
      chosen = m;
  }
  return chosen;
}

SideView::SideView(const solver::MeshData &of, const cases::Case &c, const NeckShapes &shapes,
                   const BenchShapes &on)
    : mesh(of), the_case(c), bench(on), frame(of, c),
      straight_neck(shapes.outside(moved(of.nodes, {}, 1)))
{
  for (int fret = 0; fret <= c.neck.frets; ++fret)
    top_node.push_back(
        bench.nearest({cases::fret_position(c.neck.scale_length, fret), 0, frame.near_nut()[2]}));
}

void SideView::fit(const std::vector<std::vector<double>> &states, double aspect)
{
  magnification =
      fitting_magnification(mesh.nodes, states, from_bass_level, 0.84 * aspect, -headstock_shown);
  in_frame = shown_part(mesh.nodes, moved(mesh.nodes, {}, 1));
  for (const auto &u : states) {
    const std::vector<Vec3> part = shown_part(mesh.nodes, places(u));
    in_frame.insert(in_frame.end(), part.begin(), part.end());
  }
  Vec3 top = *std::max_element(in_frame.begin(), in_frame.end(),
                               [](const Vec3 &a, const Vec3 &b) { return a[2] < b[2]; });
  top[2] += head_room;
  in_frame.push_back(top);
}

std::vector<Vec3> SideView::places(const std::vector<double> &seen) const
{
  return moved(mesh.nodes, seen, magnification);
}

void SideView::draw(Canvas &canvas, vtkRenderer *strip, vtkSmartPointer<vtkActor> surface,
                    const std::vector<Vec3> &at, const solver::OnBench &on_bench) const
{
  draw_straight(strip);
  strip->AddActor(surface);
  bench.draw_bench(strip, at, on_bench);
  draw_frets(canvas, strip, at);
  draw_chord(strip, at);
  canvas.look(strip, from_bass_level, in_frame);
}

// Its outline only: two surfaces in one place would flicker through each other.
void SideView::draw_straight(vtkRenderer *strip) const
{
  strip->AddActor(edge_actor(straight_neck, straight_grey, 1));
}

void SideView::draw_frets(Canvas &canvas, vtkRenderer *strip, const std::vector<Vec3> &at) const
{
  std::vector<std::vector<Vec3>> marks;
  for (int fret = 1; fret <= the_case.neck.frets; ++fret) {
    Vec3 foot = at[top_node[std::size_t(fret)]], head = foot;
    foot[1] = head[1] = before_the_neck;
    head[2] += fret_shown;
    marks.push_back({foot, head});
  }
  strip->AddActor(path_actor(marks, line_dark, 1.2));
  const int near_body =
      the_case.found.rest_fret_b > 0 ? the_case.found.rest_fret_b : the_case.neck.join_fret;
  for (const int fret : {the_case.found.rest_fret_a, the_case.found.bow_fret, near_body})
    if (fret > 0 && fret <= the_case.neck.frets) {
      Vec3 place = at[top_node[std::size_t(fret)]];
      place[1] = before_the_neck;
      place[2] = std::max(place[2], frame.near_nut()[2]) + 3.5 * fret_shown;
      canvas.label(strip, place, std::to_string(fret), 14, Align::centre);
    }
}

void SideView::draw_chord(vtkRenderer *strip, const std::vector<Vec3> &at) const
{
  Vec3 from = frame.near_nut(), to = frame.near_body();
  const int fret = the_case.found.bow_fret;
  if (fret > 0) {
    const double x = cases::fret_position(the_case.neck.scale_length, fret);
    Vec3 board = at[top_node[std::size_t(fret)]], chord = board;
    board[1] = chord[1] = before_the_neck;
    chord[2] = from[2] + (to[2] - from[2]) * (x - from[0]) / (to[0] - from[0]);
    add_line(strip, board, chord, gap_red, 3);
  }
  from[1] = to[1] = before_the_neck;
  from[0] -= past_rest_fret;
  to[0] += past_rest_fret;
  add_line(strip, from, to, chord_blue, 2);
}
} // namespace overbend::viz
