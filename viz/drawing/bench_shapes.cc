// SPDX-License-Identifier: GPL-3.0-or-later
#include "viz/drawing/bench_shapes.h"

#include "viz/drawing/canvas.h"

#include <algorithm>

namespace overbend::viz
{
namespace
{
constexpr Colour fret_grey = {0.35, 0.35, 0.35}, bench_grey = {0.45, 0.45, 0.45},
                 bar_dark = {0.28, 0.22, 0.2};
constexpr double cord_shown = 0.05, cradle_depth = 0.012; // m
constexpr double over_frets = 1.5e-3;                     // m from the board's top to the bar
constexpr int bar_parts = 24;

using Paths = std::vector<std::vector<Vec3>>;

// The twelve edges of a box along the axes.
Paths box(const Vec3 &low, const Vec3 &high)
{
  Paths edges;
  for (const double z : {low[2], high[2]})
    edges.push_back({{low[0], low[1], z},
                     {high[0], low[1], z},
                     {high[0], high[1], z},
                     {low[0], high[1], z},
                     {low[0], low[1], z}});
  for (const double x : {low[0], high[0]})
    for (const double y : {low[1], high[1]})
      edges.push_back({{x, y, low[2]}, {x, y, high[2]}});
  return edges;
}
} // namespace

BenchShapes::BenchShapes(const std::string &folder, const cases::Case &c,
                         const solver::MeshData &of)
    : mesh(of), bench(bench_places(folder, c))
{
  for (std::size_t n = 0; n < mesh.n_nodes(); ++n)
    board_top = std::max(board_top, mesh.nodes[3 * n + 2]);
  number_frets();
  find_nodes();
}

// Looking for a node takes long: once, not for each picture of a film.
void BenchShapes::find_nodes()
{
  const double from = std::max(bench.bar_from, 0.), length = bench.bar_to - from;
  for (int i = 0; i <= bar_parts; ++i)
    bar_middle.push_back(nearest({from + length * i / bar_parts, 0, board_top}));
  cradle = nearest({bench.cradle_x, 0, bench.turned_over ? 0.03 : -0.03});
  for (const Vec3 &place : bench.pulled_at)
    posts.push_back(nearest(place));
}

std::size_t BenchShapes::nearest(const Vec3 &place) const
{
  std::size_t best = 0;
  double least = 1e300;
  for (std::size_t n = 0; n < mesh.n_nodes(); ++n) {
    double off = 0;
    for (std::size_t i = 0; i < 3; ++i)
      off += (mesh.nodes[3 * n + i] - place[i]) * (mesh.nodes[3 * n + i] - place[i]);
    if (off < least) {
      least = off;
      best = n;
    }
  }
  return best;
}

void BenchShapes::number_frets()
{
  double half_width = 0;
  for (std::size_t n = 0; n < mesh.n_nodes(); ++n)
    if (mesh.nodes[3 * n] > 0)
      half_width = std::max(half_width, mesh.nodes[3 * n + 1]);
  for (const int fret : {1, 3, 5, 7, 9, 12, 15})
    if (std::size_t(fret) <= bench.fret_x.size())
      numbered.push_back(
          {fret, nearest({bench.fret_x[std::size_t(fret) - 1], -half_width, board_top})});
}

void BenchShapes::draw_frets(vtkRenderer *strip, vtkPolyData *surface) const
{
  const double depth = 0.5 * bench.board_thickness; // the board's rounded edges lie 1 to 2 mm lower
  strip->AddActor(line_actor(NeckShapes::across_top(surface, bench.fret_x, depth), fret_grey, 1.3));
  strip->AddActor(line_actor(NeckShapes::across_top(surface, {1e-4}, depth), fret_grey, 4));
}

void BenchShapes::draw_bench(vtkRenderer *strip, const std::vector<Vec3> &places,
                             const solver::OnBench &on_bench) const
{
  if (on_bench.clamped) {
    draw_cradle(strip, places);
    draw_cords(strip, places);
  }
  if (on_bench.heated && bench.bar_to > bench.bar_from)
    draw_bar(strip, places);
}

void BenchShapes::draw_bar(vtkRenderer *strip, const std::vector<Vec3> &places) const
{
  std::vector<Vec3> middle;
  for (const std::size_t node : bar_middle)
    middle.push_back(places[node]);
  const Vec3 first = middle[0], second = middle[1];
  if (bench.bar_from < 0 && second[0] > first[0]) { // past the nut it goes on as it came
    const double times = -bench.bar_from / (second[0] - first[0]);
    Vec3 end{};
    for (std::size_t i = 0; i < 3; ++i)
      end[i] = first[i] - times * (second[i] - first[i]);
    middle.insert(middle.begin(), end);
  }
  Paths edges;
  for (const auto &[y, z] :
       {std::pair(-0.5, 0.), std::pair(0.5, 0.), std::pair(0.5, 1.), std::pair(-0.5, 1.)}) {
    std::vector<Vec3> edge = middle;
    for (Vec3 &p : edge) {
      p[1] += y * bench.bar_width;
      p[2] += over_frets + z * bench.bar_thickness;
    }
    edges.push_back(edge);
  }
  for (const bool end : {false, true}) {
    std::vector<Vec3> around;
    for (const std::size_t k : {0, 1, 2, 3, 0})
      around.push_back(end ? edges[k].back() : edges[k].front());
    edges.push_back(around);
  }
  strip->AddActor(path_actor(edges, bar_dark, 1.5));
}

void BenchShapes::draw_cradle(vtkRenderer *strip, const std::vector<Vec3> &places) const
{
  const Vec3 at = places[cradle];
  const double half = 0.5 * bench.cradle_width, side = 0.032;
  const double near = at[2], far = at[2] + (bench.turned_over ? cradle_depth : -cradle_depth);
  strip->AddActor(path_actor(box({at[0] - half, at[1] - side, std::min(near, far)},
                                 {at[0] + half, at[1] + side, std::max(near, far)}),
                             bench_grey, 1.6));
}

void BenchShapes::draw_cords(vtkRenderer *strip, const std::vector<Vec3> &places) const
{
  Paths cords;
  for (const std::size_t post : posts) {
    Vec3 end = places[post];
    end[2] += bench.pulled_up ? cord_shown : -cord_shown;
    cords.push_back({places[post], end});
  }
  if (!posts.empty())
    strip->AddActor(path_actor(cords, bench_grey, 2.2));
}
} // namespace overbend::viz
