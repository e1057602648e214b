// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/strength/wood_parts.h"

#include <array>
#include <vector>

// The boxes over which stress is averaged (solver/strength/stress_means.h says why) as weighted
// sums.
namespace overbend::solver
{
// 1, t_0, t_1, t_0 t_1, ... of a trilinear at t in [-1, 1]^3.
constexpr unsigned n_trilinear = 8;
using Trilinear = std::array<double, n_trilinear>;
Trilinear trilinear(const Vec3 &t);

struct StressBox
{
  unsigned part = 0; // by whose strength it is judged
  Vec3 place{};      // its middle
};

struct BoxTerm
{
  unsigned part = 0;
  Trilinear weight{}; // of the coefficients of the part's trilinear
};

struct StressBoxes
{
  std::vector<WoodPart> part;
  std::vector<StressBox> box;
  std::vector<BoxTerm> term;       // of all boxes
  std::vector<unsigned> term_from; // of each box, and the end
};

StressBoxes make_stress_boxes(const Model &model);

} // namespace overbend::solver
