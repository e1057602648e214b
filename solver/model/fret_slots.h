// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cases/case/neck_shape.h"
#include "solver/model/model.h"

#include <vector>

// Fret slots: how much softer along its grain the slotted part of a board is where it is pulled.
//
// A slot of depth a is a crack from the edge, square to the grain. Open, it adds to a board of
// thickness t the length (of board as if uncut) that its energy tells,
//   K = 1.12 sigma sqrt(pi a)                                    [M: edge crack in tension]
//   G = K^2 sqrt(S_LL S_DD/2) sqrt(sqrt(S_LL/S_DD) + (2 S_LD + S_shear)/(2 S_DD))
//                                                                [M: Sih, Paris, Irwin 1965]
//   length added = f 1.12^2 pi g a^2/t,   g = G/(K^2 S_LL)
// with D the direction of the depth, and f = 1.5 for a slot that is not shallow: so much more a
// plane finite-element computation of one slot gave, 2.4 mm deep in 6 mm of board on 14 mm of shaft
// [C]. Spread over the distance p between frets and given to the part
// of the board that is cut, of depth a, its modulus along the grain is that of the wood times
//   p/(p + c a),   c = f 1.12^2 pi g,
// which goes to nothing for slots side by side. For real boards c is about 12, and a board pulled
// along as a whole loses 18 to 25 % (trade: 10 to 25 % [E]); that computation, with frets 36, 25
// and 18 mm apart, gave 17, 22 and 27 %, and of the bending stiffness of board and shaft 14, 18 and
// 22 % against 13, 16 and 19 % here.
// A slot that is pressed closes on its tang and carries as the wood does. Which it is is a state of
// each point (Mechanics), by the sign of the stress along the grain. Left out: tangs that are wider
// than their slots and hold them shut until that is used up (NeckShape::slot_give), creep beyond
// that of the wood around, the shift of the single slots.
namespace overbend::solver
{
// Depth of the slots, m: as told, else 2.5 mm and no more than 42 % of the board's thickness [E].
double slot_depth(const cases::NeckShape &neck);

// c of a wood, its rings lying as `grain` (columns L, R, T) says; at 20 degC and a moisture
// content.
double slot_reach(const materials::WoodLaw &law, const std::array<Vec3, 3> &grain, double moisture);

// For each quadrature point what open slots add to the compliance along the grain, for that at
// once; empty without slots.
std::vector<double> slots_by_point(const Model &model, const cases::NeckShape &neck);
} // namespace overbend::solver
