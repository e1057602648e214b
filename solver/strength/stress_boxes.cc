// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/strength/stress_boxes.h"

#include "solver/strength/cell_geometry.h"

#include <algorithm>
#include <cmath>
#include <optional>

namespace overbend::solver
{
namespace
{
constexpr double longest_box = 2.5e-3, share_of_depth = 0.2; // m, -: see the header

// Middles of the boxes in one direction, in the cell's coordinate; r: box over size of the cell.
// The share of strength is convex in the stress and the stress is linear along each direction, so
// the largest lies against a side.
std::vector<double> stations(double r)
{
  return r < 1 ? std::vector<double>{r - 1, 1 - r} : std::vector<double>{0};
}

Vec3 minus(const Vec3 &a, const Vec3 &b)
{
  return {a[0] - b[0], a[1] - b[1], a[2] - b[2]};
}

// Of a small piece whose middle is `off` from that of the box: how much lies inside.
double share_inside(const Vec3 &off, const Vec3 &r)
{
  constexpr double soft = 0.25; // of the box, the size of a piece: the sum has no jumps
  double share = 1;
  for (unsigned d = 0; d < 3; ++d)
    share *= std::clamp((0.5 - std::abs(off[d]) / (2 * r[d])) / soft + 0.5, 0., 1.);
  return share;
}

// Small pieces of a cell around the middle of a box, in the coordinates of the cell, which is taken
// as a parallelepiped.
constexpr unsigned n_pieces = 4; // in each direction
struct Pieces
{
  Vec3 at{}, low{}, step{}; // middle of the box; first corner and size of the pieces
  double volume = 0;        // of one, m^3

  Vec3 middle(unsigned k) const
  {
    return {low[0] + (k % n_pieces + 0.5) * step[0],
            low[1] + (k / n_pieces % n_pieces + 0.5) * step[1],
            low[2] + (k / n_pieces / n_pieces + 0.5) * step[2]};
  }
};

// Of a box in the directions of its own cell; none if it does not reach there.
std::optional<Pieces> pieces_around(const CellGeometry &own, const CellGeometry &there,
                                    const Vec3 &place, const Vec3 &r)
{
  Pieces pieces;
  pieces.at = there.t_of(minus(place, there.middle));
  pieces.volume = there.volume() / 8;
  for (unsigned d = 0; d < 3; ++d) {
    double half = 0;
    for (unsigned e = 0; e < 3; ++e)
      half += std::abs(there.t_of(own.edge[e])[d]) * r[e];
    pieces.low[d] = std::max(-1., pieces.at[d] - half);
    pieces.step[d] = (std::min(1., pieces.at[d] + half) - pieces.low[d]) / n_pieces;
    if (!(pieces.step[d] > 0))
      return {};
    pieces.volume *= pieces.step[d];
  }
  return pieces;
}

class BoxMaker
{
public:
  BoxMaker(const Model &model, StressBoxes &result)
      : model_(model), boxes(result), cell(cell_geometry(model.space)),
        depth(local_depths(model, cell)), whole_part(model.space.n_cells, -1)
  {
    for (unsigned c = 0; c < model.space.n_cells; ++c)
      for (const WoodPart &part : parts_of(model, c)) {
        if (part.whole)
          whole_part[c] = int(boxes.part.size());
        boxes.part.push_back(part);
      }
  }

  void add_all()
  {
    for (unsigned p = 0; p < boxes.part.size(); ++p) {
      const WoodPart &part = boxes.part[p];
      if (part.whole)
        add_boxes(p);
      else
        add_in_cell(p, {0, 0, 0});
    }
    boxes.term_from.push_back(unsigned(boxes.term.size()));
  }

private:
  void begin_box(unsigned part, const Vec3 &place)
  {
    boxes.box.push_back({part, place});
    boxes.term_from.push_back(unsigned(boxes.term.size()));
  }

  // The mean of a trilinear over a box is its value in the middle.
  void add_in_cell(unsigned part, const Vec3 &t)
  {
    begin_box(part, place_in(model_.space, boxes.part[part].cell, t));
    boxes.term.push_back({part, trilinear(t)});
  }

  void add_boxes(unsigned part)
  {
    const unsigned c = boxes.part[part].cell;
    Vec3 r;
    for (unsigned d = 0; d < 3; ++d)
      r[d] = (d == depth[c].direction ? std::min(longest_box, share_of_depth * depth[c].depth)
                                      : longest_box) /
             cell[c].size[d];
    const bool fits = r[0] <= 1 && r[1] <= 1 && r[2] <= 1;
    for (const double t0 : stations(r[0]))
      for (const double t1 : stations(r[1]))
        for (const double t2 : stations(r[2]))
          if (fits)
            add_in_cell(part, {t0, t1, t2});
          else
            add_over_neighbours(part, {t0, t1, t2}, r);
  }

  // What of the wood lies in a box. Moments are about its middle, in the own cell's coordinates.
  struct Reach
  {
    std::vector<BoxTerm> term;
    double volume = 0;
    Vec3 moment{};
  };

  void add_over_neighbours(unsigned part, const Vec3 &t, const Vec3 &r)
  {
    const CellGeometry &own = cell[boxes.part[part].cell];
    Vec3 place = place_in(model_.space, boxes.part[part].cell, t);
    Reach reach = reach_of(part, place, r);
    // Out of the wood on one side: by twice the way of its middle it lies against that side.
    if (reach.volume < 0.98 * own.volume() * r[0] * r[1] * r[2]) {
      for (unsigned d = 0; d < 3; ++d)
        for (unsigned i = 0; i < 3; ++i)
          place[i] += 2 * reach.moment[d] / reach.volume * own.edge[d][i];
      reach = reach_of(part, place, r);
    }
    begin_box(part, place);
    for (BoxTerm &term : reach.term) {
      for (double &w : term.weight)
        w /= reach.volume;
      boxes.term.push_back(term);
    }
  }

  Reach reach_of(unsigned part, const Vec3 &place, const Vec3 &r) const
  {
    Reach reach;
    std::vector<unsigned> cells{boxes.part[part].cell};
    for (std::size_t next = 0; next < cells.size(); ++next) {
      if (!add_overlap(part, cells[next], place, r, reach))
        continue;
      for (const int other : cell[cells[next]].neighbour)
        if (other >= 0 && whole_part[unsigned(other)] >= 0 &&
            std::find(cells.begin(), cells.end(), unsigned(other)) == cells.end() &&
            is_same_wood(model_, boxes.part[part],
                         boxes.part[unsigned(whole_part[unsigned(other)])]))
          cells.push_back(unsigned(other));
    }
    return reach;
  }

  // Adds what of a cell lies in a box; false if nothing does.
  bool add_overlap(unsigned part, unsigned c, const Vec3 &place, const Vec3 &r, Reach &reach) const
  {
    const CellGeometry &own = cell[boxes.part[part].cell], &there = cell[c];
    const auto around = pieces_around(own, there, place, r);
    if (!around)
      return false;
    const std::array<Vec3, 3> turn{own.t_of(there.edge[0]), own.t_of(there.edge[1]),
                                   own.t_of(there.edge[2])};
    BoxTerm term{unsigned(whole_part[c]), {}};
    double volume = 0;
    for (unsigned k = 0; k < n_pieces * n_pieces * n_pieces; ++k) {
      const Vec3 t = around->middle(k);
      Vec3 off{};
      for (unsigned d = 0; d < 3; ++d)
        for (unsigned e = 0; e < 3; ++e)
          off[d] += turn[e][d] * (t[e] - around->at[e]);
      const double inside = around->volume * share_inside(off, r);
      if (!(inside > 0))
        continue;
      const auto value = trilinear(t);
      for (unsigned i = 0; i < n_trilinear; ++i)
        term.weight[i] += inside * value[i];
      for (unsigned d = 0; d < 3; ++d)
        reach.moment[d] += inside * off[d];
      volume += inside;
    }
    reach.volume += volume;
    if (volume > 0)
      reach.term.push_back(term);
    return volume > 0;
  }

  const Model &model_;
  StressBoxes &boxes;
  std::vector<CellGeometry> cell;
  std::vector<LocalDepth> depth;
  std::vector<int> whole_part; // of a cell that no line between strips cuts
};
} // namespace

Trilinear trilinear(const Vec3 &t)
{
  Trilinear value{};
  for (unsigned k = 0; k < n_trilinear; ++k)
    value[k] = (k & 1 ? t[0] : 1) * (k & 2 ? t[1] : 1) * (k & 4 ? t[2] : 1);
  return value;
}

StressBoxes make_stress_boxes(const Model &model)
{
  StressBoxes boxes;
  BoxMaker(model, boxes).add_all();
  return boxes;
}
} // namespace overbend::solver
