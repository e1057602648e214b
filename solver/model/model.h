// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "materials/glue_law.h"
#include "materials/sorption.h"
#include "materials/wood_law.h"
#include "solver/model/interfaces.h"
#include "solver/model/space.h"

#include <array>
#include <cstdint>
#include <memory>
#include <optional>
#include <vector>

namespace overbend::solver
{
// What one piece of the neck is made of and how its grain runs.
struct PieceModel
{
  std::shared_ptr<const materials::WoodLaw> law;
  // Columns: L, R, T in model axes; Model::cell_grain goes before it.
  std::array<Vec3, 3> grain{Vec3{1, 0, 0}, Vec3{0, 0, 1}, Vec3{0, 1, 0}};
  double moisture = 0.12;    // kg/kg, at which it was glued up: no swelling strain
  double dry_density = 0;    // oven-dry mass over volume, kg/m^3; 0: takes no water
  double swelling_along = 1; // of this blank along the grain, for that of its wood
  // Heat: conductivity along and across the grain, W/(m K); heat capacity by volume, J/(m^3 K).
  double conductivity_along = 0.3, conductivity_across = 0.16, heat_capacity = 1e6;
};

// A glue line: its law and its points.
struct GlueLineModel
{
  std::shared_ptr<const materials::GlueLaw> law;
  std::string name;
  materials::Glue glue; // the table's entry, for its strength
};

// Index of a wood: a piece's material id, or first_strip + the strip of a laminated shaft.
constexpr unsigned first_strip = 8;

// A shaft glued up from strips: which wood is where, for mechanics by quadrature point, as
// solver/model/strips.h lays them. Heat and moisture take a cell for the wood at its middle: their
// coefficients differ little between woods, and warming or drying goes over many cells.
struct StripModel
{
  std::vector<PieceModel> wood; // of each strip; PieceModel::grain is that at the nut
  std::vector<std::uint8_t> wood_at_point, wood_at_middle; // indices of woods, by point and by cell
  std::vector<std::array<Vec3, 3>> frame;                  // distinct ones
  std::vector<std::uint32_t> frame_at_point;
};

// The neck as the solver sees it: space, materials, glue lines. Constant once made.
struct Model
{
  Space space;
  std::array<PieceModel, 8> piece; // by material id
  // How the grain runs in each cell, where it changes along a piece; empty: as the piece says. One
  // frame a cell, that at its centre: a straight change along x is off by its square only, which
  // the verification of grain shows. Of a shaft of strips, the strip at the centre.
  std::vector<std::array<Vec3, 3>> cell_grain;
  std::optional<StripModel> strips; // empty: no piece is glued up from strips
  // Factor on the swelling along the grain in each cell, beside that of the piece; empty: 1
  // everywhere.
  std::vector<double> swelling_along;
  // What open fret slots add to the compliance along the grain at each quadrature point, for that
  // at once (solver/model/fret_slots.h); empty: no slots.
  std::vector<double> slot_give;
  std::vector<GlueLineModel> glue_line;
  // The curve of sorption by which the wood came to its moisture: what says which air the glue
  // beside it is at rest with.
  materials::SorptionBranch branch = materials::SorptionBranch::mean;
  std::vector<GluePoint> glue_point; // GluePoint::line is an index into glue_line

  const std::array<Vec3, 3> &grain(unsigned cell) const
  {
    return cell_grain.empty() ? piece[space.piece[cell]].grain : cell_grain[cell];
  }

  // Indices of the wood at a quadrature point of a cell and at the cell's middle.
  unsigned wood_at(unsigned cell, std::size_t point) const
  {
    return strips ? strips->wood_at_point[point] : space.piece[cell];
  }
  unsigned wood_at_middle(unsigned cell) const
  {
    return strips ? strips->wood_at_middle[cell] : space.piece[cell];
  }
  const PieceModel &wood(unsigned index) const
  {
    return index < first_strip ? piece[index] : strips->wood[index - first_strip];
  }
  unsigned n_woods() const
  {
    return first_strip + (strips ? static_cast<unsigned>(strips->wood.size()) : 0);
  }
  const std::array<Vec3, 3> &grain_at(unsigned cell, std::size_t point) const
  {
    return strips ? strips->frame[strips->frame_at_point[point]] : grain(cell);
  }

  // The body tips as a whole on its pads: one more unknown, an angle about y (rad, nut end up).
  unsigned tip_dof() const { return space.n_dofs(); }
  unsigned n_unknowns() const { return space.n_dofs() + 1; }
};
} // namespace overbend::solver
