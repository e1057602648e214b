// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/model/space.h"

#include <vector>

namespace overbend::solver
{
// Where a glue line is integrated: a pair of nodes that share a place, with the area they stand
// for.
struct GluePoint
{
  unsigned upper = 0;
  int lower = -1;         // -1: the other side is the body, which does not move
  double weight = 0;      // m^2
  Vec3 normal{};          // from the lower to the upper side
  Vec3 along{}, across{}; // directions of slip in the plane: along the neck, across it
  unsigned line = 0;      // which glue line
};

// Mean of a nodal value over the two sides; that of the upper side on a body that does not move.
inline double mean_of_sides(const GluePoint &p, const std::vector<double> &nodal)
{
  return p.lower < 0 ? nodal[p.upper] : (nodal[p.upper] + nodal[unsigned(p.lower)]) / 2;
}

// Pairs the nodes of two faces that share a place. Throws std::runtime_error if some node of the
// upper side has no partner within a micrometre.
std::vector<GluePoint> pair_nodes(const Space &space, unsigned upper_id, unsigned lower_id,
                                  unsigned line);

// Points of a face that is glued to the fixed body.
std::vector<GluePoint> points_on_body(const Space &space, unsigned face_id, unsigned line);

// Nodes of a face with their area and mean normal, each node once, in ascending order.
struct FaceNode
{
  unsigned node;
  double weight;
  Vec3 normal;
};
std::vector<FaceNode> face_nodes(const Space &space, unsigned face_id);
} // namespace overbend::solver
