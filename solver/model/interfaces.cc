// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/model/interfaces.h"

#include <cmath>
#include <map>
#include <stdexcept>

namespace overbend::solver
{
namespace
{
Vec3 cross(const Vec3 &a, const Vec3 &b)
{
  return {a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]};
}

void normalise(Vec3 &v)
{
  const double length = std::sqrt(v[0] * v[0] + v[1] * v[1] + v[2] * v[2]);
  for (double &c : v)
    c /= length;
}

// Key of a place on a grid of a micrometre, so that equal places of two sides meet.
using Key = std::array<long, 3>;
Key key(const Vec3 &p, int dx, int dy, int dz)
{
  const double step = 1e-6;
  return {std::lround(p[0] / step) + dx, std::lround(p[1] / step) + dy,
          std::lround(p[2] / step) + dz};
}

GluePoint make_point(const FaceNode &upper, unsigned line)
{
  GluePoint point;
  point.upper = upper.node;
  point.weight = upper.weight;
  point.line = line;
  for (unsigned i = 0; i < 3; ++i)
    point.normal[i] = -upper.normal[i]; // outward of the upper side looks down
  // Slip along the neck: the x direction laid into the plane of the line.
  const double nx = point.normal[0];
  point.along = {1 - nx * nx, -nx * point.normal[1], -nx * point.normal[2]};
  normalise(point.along);
  point.across = cross(point.normal, point.along);
  return point;
}
} // namespace

std::vector<FaceNode> face_nodes(const Space &space, unsigned face_id)
{
  std::map<unsigned, FaceNode> nodes;
  const auto faces = space.boundary.find(face_id);
  if (faces == space.boundary.end())
    return {};
  for (const BoundaryFace &face : faces->second)
    for (unsigned q = 0; q < nodes_per_face; ++q) {
      FaceNode &n = nodes.try_emplace(face.node[q], FaceNode{face.node[q], 0, {}}).first->second;
      n.weight += face.weight[q];
      for (unsigned i = 0; i < 3; ++i)
        n.normal[i] += face.weight[q] * face.normal[q][i];
    }
  std::vector<FaceNode> result;
  for (auto &[index, node] : nodes) {
    normalise(node.normal);
    result.push_back(node);
  }
  return result;
}

std::vector<GluePoint> pair_nodes(const Space &space, unsigned upper_id, unsigned lower_id,
                                  unsigned line)
{
  std::map<Key, unsigned> place;
  for (const FaceNode &n : face_nodes(space, lower_id))
    place[key(space.position[n.node], 0, 0, 0)] = n.node;

  std::vector<GluePoint> points;
  for (const FaceNode &upper : face_nodes(space, upper_id)) {
    GluePoint point = make_point(upper, line);
    for (int shift = 0; shift < 27 && point.lower < 0; ++shift) {
      const auto found = place.find(
          key(space.position[upper.node], shift % 3 - 1, shift / 3 % 3 - 1, shift / 9 - 1));
      if (found != place.end())
        point.lower = found->second;
    }
    if (point.lower < 0)
      throw std::runtime_error("A node of a glue line has no partner on the other side");
    points.push_back(point);
  }
  return points;
}

std::vector<GluePoint> points_on_body(const Space &space, unsigned face_id, unsigned line)
{
  std::vector<GluePoint> points;
  for (const FaceNode &node : face_nodes(space, face_id))
    points.push_back(make_point(node, line));
  return points;
}
} // namespace overbend::solver
