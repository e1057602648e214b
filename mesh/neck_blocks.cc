// SPDX-License-Identifier: GPL-3.0-or-later
#include "mesh/neck_blocks.h"

#include "mesh/grading.h"
#include "mesh/scarf_wedge.h"

#include <algorithm>
#include <memory>

namespace overbend::mesh
{
namespace
{
using dealii::Point;

// Cell sizes along the neck at resolution 1 [E]; glue lines need 3 to 5 mm at their ends.
constexpr double glue_end = 3e-3, scarf_end = 8e-3, heel_cell = 5e-3, free_end = 8e-3;
constexpr double largest_cell = 32e-3, largest_head_cell = 50e-3, head_root = 3e-3;
constexpr double growth = 0.65;         // of a cell against its distance from a fine place
constexpr double pad_cell = 42e-3;      // at any resolution, so that a cradle meets nodes
constexpr double upright_again = 45e-3; // beyond a scarf, until the sections are upright

SizeField neck_sizes(const NeckProfile &profile, double scale)
{
  const double glued_to = std::min(profile.neck_end, profile.board_end);
  SizeField field{std::min(largest_cell / scale, pad_cell), growth, {}};
  const auto mark = [&](double x, double size) { field.marks.push_back({x, size / scale}); };
  mark(profile.has_scarf ? profile.scarf_top : 0.0, profile.has_scarf ? scarf_end : glue_end);
  mark(glued_to, glue_end);
  mark(profile.body_join, heel_cell);
  mark(0.5 * (profile.heel_start + profile.body_join), heel_cell);
  mark(std::max(profile.board_end, profile.neck_end), free_end);
  return field;
}

double between(const std::vector<double> &x, unsigned i)
{
  return 0.5 * (x[i / 2] + x[(i + 1) / 2]);
}

unsigned cells_of(const std::vector<double> &x)
{
  return static_cast<unsigned>(x.size() - 1);
}

// Builds the blocks one after the other and keeps the stations of the board's lower edge.
class NeckBlocks
{
public:
  NeckBlocks(const NeckGrid &grid, HexMesh &mesh)
      : grid_(grid), profile_(grid.profile), counts_(grid.counts), mesh_(mesh),
        sizes_(neck_sizes(grid.profile, grid.counts.scale))
  {
    if (profile_.has_scarf)
      wedge_ = std::make_unique<ScarfWedge>(grid);
  }

  void add_all()
  {
    add_headstock();
    if (wedge_) {
      if (wedge_->left_top > 0)
        add_nut_block();
      add_wedge();
      add_tilted_shaft();
    } else
      board_x_ = {0.0};
    add_shaft();
    add_board();
  }

private:
  // Level of a node line counted upwards from the back, double density.
  double level(unsigned k, unsigned lower) const
  {
    const double upper = counts_.upper();
    return k < 2 * lower ? upper + 1 - k / (2.0 * lower) : upper - 0.5 * (k - 2.0 * lower);
  }

  // Piece of a cell below the board; `layer` counts upwards from the channel's bottom.
  Piece piece_of(Piece wood, unsigned column, int layer) const
  {
    using cases::RodKind;
    const RodKind rod = profile_.shape.rod.kind;
    if (rod == RodKind::none || layer < 0 || !grid_.in_channel(column))
      return wood;
    if (rod == RodKind::bonded_bar)
      return Piece::bar;
    const bool over_rod = layer >= static_cast<int>(counts_.rod);
    return over_rod ? Piece::fillet : Piece::rod_space;
  }

  std::function<Piece(unsigned, unsigned, unsigned)> pieces(Piece wood, unsigned lower) const
  {
    return [this, wood, lower](unsigned, unsigned j, unsigned k) {
      return piece_of(wood, j, static_cast<int>(k) - static_cast<int>(lower));
    };
  }

  Solid head_solid() const { return wedge_ ? Solid::headstock : Solid::shaft; }

  void keep_stations(const std::vector<double> &x) // corners and middles
  {
    for (unsigned i = board_x_.empty() ? 0 : 1; i < 2 * x.size() - 1; ++i)
      board_x_.push_back(between(x, i));
  }

  void add_headstock();
  void add_nut_block();
  void add_wedge();
  void add_tilted_shaft();
  void add_shaft();
  void add_shaft_part(double from, double to);
  void add_board();
  void add_board_part(unsigned from, unsigned to, Face under);

  const NeckGrid &grid_;
  const NeckProfile &profile_;
  const GridCounts &counts_;
  HexMesh &mesh_;
  const SizeField sizes_;
  std::unique_ptr<ScarfWedge> wedge_;
  std::vector<double> board_x_; // double density
  double upright_from_ = 0;     // start of the shaft with upright sections
};

void NeckBlocks::add_headstock()
{
  const SizeField sizes{
      largest_head_cell / counts_.scale, growth, {{0.0, head_root / counts_.scale}}};
  const auto x = stations(sizes, profile_.tip, 0.0, 0, 3);
  const unsigned n = cells_of(x), lower = counts_.lower_head;
  const bool to_wedge = wedge_ && wedge_->left_top == 0;
  HexBlock block;
  block.cells = {{n, grid_.columns(), counts_.upper() + lower}};
  block.point = [=](unsigned i, unsigned j, unsigned k) {
    const double l = level(k, lower);
    const auto &line = grid_.lines[j];
    if (!to_wedge || i + 1 < 2 * n)
      return grid_.point(between(x, i), line, l);
    const double end = wedge_->left_x(j, l);
    return grid_.point(i == 2 * n ? end : 0.5 * (x[n - 1] + end), line, l);
  };
  block.piece = [](unsigned, unsigned, unsigned) { return Piece::headstock; };
  block.solid = head_solid();
  block.side = {{Face::headstock_other, Face::channel, Face::headstock_other, Face::headstock_other,
                 Face::headstock_other, Face::headstock_face}};
  mesh_.add(block);
}

// A scarf that starts well off the nut: full section of the headstock piece from the nut to it.
void NeckBlocks::add_nut_block()
{
  SizeField sizes = sizes_;
  sizes.marks.push_back({0.0, glue_end / counts_.scale});
  const auto x = stations(sizes, 0.0, wedge_->left_top);
  const unsigned n = cells_of(x), lower = counts_.lower_head;
  keep_stations(x);
  HexBlock block;
  block.cells = {{n, grid_.columns(), counts_.upper() + lower}};
  block.point = [=](unsigned i, unsigned j, unsigned k) {
    const double l = level(k, lower), share = between(x, i) / x[n];
    return grid_.point(share * wedge_->left_x(j, l), grid_.lines[j], l);
  };
  block.piece = pieces(Piece::headstock, lower);
  block.solid = Solid::headstock;
  block.side = {
      {Face::channel, Face::channel, Face::back, Face::back, Face::back, Face::board_glue_lower}};
  mesh_.add(block);
}

void NeckBlocks::add_wedge()
{
  const unsigned q = counts_.lower, p = counts_.lower_head, upper = counts_.upper();
  const auto add = [&](unsigned along, unsigned up, auto place, unsigned lower, Face end,
                       Face under, Face over) {
    HexBlock block;
    block.cells = {{along, grid_.columns(), up}};
    block.point = [=](unsigned i, unsigned j, unsigned k) {
      const auto at = place(j, i, k);
      return grid_.point(at[0], grid_.lines[j], at[1]);
    };
    block.piece = pieces(Piece::headstock, lower);
    block.solid = Solid::headstock;
    block.side = {{Face::channel, end, Face::back, Face::back, under, over}};
    mesh_.add(block);
  };
  const ScarfWedge &w = *wedge_;
  add(
      p, upper, [&w](auto j, auto i, auto k) { return w.block_a(j, i, k); }, 0u, Face::scarf_head,
      Face::channel, Face::board_glue_lower);
  add(
      q, upper, [&w](auto j, auto i, auto k) { return w.block_b(j, i, k); }, 0u, Face::channel,
      Face::channel, Face::board_glue_lower);
  add(
      q, p, [&w](auto j, auto i, auto k) { return w.block_c(j, i, k); }, p, Face::channel,
      Face::scarf_head, Face::channel);
  const auto top = w.top_stations();
  board_x_.insert(board_x_.end(), top.begin() + (board_x_.empty() ? 0 : 1), top.end());
}

void NeckBlocks::add_tilted_shaft()
{
  const double top = profile_.scarf_top, room = profile_.heel_start - top;
  const double wanted = std::max(upright_again, 0.6 * (top - profile_.scarf_bottom));
  upright_from_ = top + std::min(wanted, 0.6 * room);
  const auto x = stations(sizes_, top, upright_from_, 0, 3);
  keep_stations(x);
  const unsigned lower = counts_.lower;
  HexBlock block;
  block.cells = {{cells_of(x), grid_.columns(), counts_.upper() + lower}};
  block.point = [=](unsigned i, unsigned j, unsigned k) {
    const double l = level(k, lower), share = (between(x, i) - top) / (upright_from_ - top);
    const double at = (1 - share) * wedge_->scarf_x(j, l) + share * upright_from_;
    return grid_.point(at, grid_.lines[j], l);
  };
  block.piece = pieces(Piece::shaft, lower);
  block.side = {{Face::scarf_shaft, Face::channel, Face::back, Face::back, Face::back,
                 Face::board_glue_lower}};
  mesh_.add(block);
}

void NeckBlocks::add_shaft_part(double from, double to)
{
  const auto x = stations(sizes_, from, to);
  const bool pocket = from >= profile_.body_join, free_top = from >= profile_.board_end;
  if (!free_top)
    keep_stations(x);
  const unsigned lower = counts_.lower;
  HexBlock block;
  block.cells = {{cells_of(x), grid_.columns(), counts_.upper() + lower}};
  block.point = [=](unsigned i, unsigned j, unsigned k) {
    return grid_.point(between(x, i), grid_.lines[j], level(k, lower));
  };
  if (from < profile_.channel_end)
    block.piece = pieces(Piece::shaft, lower);
  else
    block.piece = [](unsigned, unsigned, unsigned) { return Piece::shaft; };
  block.side = {{Face::channel, to >= profile_.neck_end ? Face::body : Face::channel, Face::back,
                 Face::back, pocket ? Face::body : Face::back,
                 free_top ? Face::back : Face::board_glue_lower}};
  mesh_.add(block);
}

void NeckBlocks::add_shaft()
{
  std::vector<double> ends = {upright_from_, profile_.heel_start, profile_.channel_end,
                              profile_.body_join, profile_.neck_end};
  if (profile_.board_end < profile_.neck_end)
    ends.push_back(profile_.board_end);
  std::sort(ends.begin(), ends.end());
  ends.erase(std::unique(ends.begin(), ends.end()), ends.end());
  for (std::size_t i = 0; i + 1 < ends.size(); ++i)
    add_shaft_part(ends[i], ends[i + 1]);
}

void NeckBlocks::add_board_part(unsigned from, unsigned to, Face under)
{
  HexBlock block;
  block.cells = {{(to - from) / 2, grid_.columns(), counts_.board}};
  block.point = [=](unsigned i, unsigned j, unsigned k) {
    return grid_.board_point(board_x_[from + i], grid_.lines[j], k / (2.0 * counts_.board));
  };
  block.piece = [](unsigned, unsigned, unsigned) { return Piece::board; };
  block.solid = Solid::board;
  block.side = {{from == 0 ? Face::board_nut_end : Face::channel,
                 to + 1 == board_x_.size() ? Face::board_body_end : Face::channel, Face::board_side,
                 Face::board_side, under, Face::board_top}};
  mesh_.add(block);
}

void NeckBlocks::add_board()
{
  const auto glued = static_cast<unsigned>(board_x_.size() - 1);
  if (profile_.board_end > profile_.neck_end) {
    keep_stations(stations(sizes_, profile_.neck_end, profile_.board_end));
    add_board_part(0, glued, Face::board_glue_upper);
    add_board_part(glued, static_cast<unsigned>(board_x_.size() - 1), Face::tongue_under);
  } else
    add_board_part(0, glued, Face::board_glue_upper);
}
} // namespace

void add_neck_blocks(const NeckGrid &grid, HexMesh &mesh)
{
  NeckBlocks(grid, mesh).add_all();
}
} // namespace overbend::mesh
