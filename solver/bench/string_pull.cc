// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/bench/string_pull.h"

#include "materials/strings.h"
#include "mesh/neck_mesh.h"
#include "mesh/neck_profile.h"
#include "solver/model/interfaces.h"

#include <algorithm>
#include <cmath>

namespace overbend::solver
{
namespace
{
// Height of a string at its post above the headstock's face, m (common practice, no source).
constexpr double post_height = 7e-3;
// Radius of the wood that a post bears on, m (bush and washer; common practice, no source).
constexpr double post_radius = 12e-3;

Vec3 minus(const Vec3 &a, const Vec3 &b)
{
  return {a[0] - b[0], a[1] - b[1], a[2] - b[2]};
}

Vec3 unit(Vec3 v)
{
  const double length = std::sqrt(v[0] * v[0] + v[1] * v[1] + v[2] * v[2]);
  for (double &c : v)
    c /= length;
  return v;
}

// The ledge in front of the board on which the nut stands.
std::vector<unsigned> nut_seat(const Space &space, const cases::NeckShape &neck)
{
  std::vector<unsigned> nodes;
  for (const auto id : {mesh::Face::headstock_face, mesh::Face::board_glue_lower})
    for (const FaceNode &n : face_nodes(space, unsigned(id))) {
      const Vec3 &p = space.position[n.node];
      if (p[0] > -8e-3 && p[0] < 5e-3 && std::abs(p[1]) <= neck.nut_width / 2)
        nodes.push_back(n.node);
    }
  std::sort(nodes.begin(), nodes.end());
  nodes.erase(std::unique(nodes.begin(), nodes.end()), nodes.end());
  return nodes;
}

// Nodes of the glue plane's lower side along the centre line, by rising x.
std::vector<unsigned> centre_line(const Space &space, double to)
{
  std::vector<unsigned> nodes;
  for (const FaceNode &n : face_nodes(space, unsigned(mesh::Face::board_glue_lower))) {
    const Vec3 &p = space.position[n.node];
    if (std::abs(p[1]) < 1e-6 && p[0] <= to)
      nodes.push_back(n.node);
  }
  std::sort(nodes.begin(), nodes.end(),
            [&](unsigned a, unsigned b) { return space.position[a][0] < space.position[b][0]; });
  return nodes;
}

// Vertical rise of the nut and slope of the neck times the tension, as springs.
std::vector<Spring> shape_springs(const Model &model, const Row &nut_rise, double tension,
                                  double scale_length, double join)
{
  std::vector<Spring> springs;
  Spring turn;
  turn.name = "strings";
  turn.row = nut_rise;
  turn.stiffness = tension / scale_length;
  turn.in_factor = false;
  springs.push_back(turn);
  const std::vector<unsigned> nodes = centre_line(model.space, join);
  for (std::size_t k = 1; k < nodes.size(); ++k) {
    const double dx = model.space.position[nodes[k]][0] - model.space.position[nodes[k - 1]][0];
    if (dx < 1e-6)
      continue;
    Spring slope;
    slope.name = "strings";
    slope.row = {{3 * nodes[k] + 2, 1 / dx}, {3 * nodes[k - 1] + 2, -1 / dx}};
    slope.stiffness = -tension * dx;
    slope.in_factor = false;
    springs.push_back(slope);
  }
  return springs;
}
} // namespace

PostPlace post_place(const cases::Tuners &tuners, unsigned index, unsigned count)
{
  const auto between = [&](unsigned k, unsigned n) {
    return n < 2 ? tuners.first_post
                 : tuners.first_post + (tuners.last_post - tuners.first_post) * k / (n - 1);
  };
  if (tuners.layout == cases::TunerLayout::both_sides) {
    // The outer strings go to the posts nearest to the nut.
    const unsigned half = (count + 1) / 2;
    if (index < half)
      return {between(index, half), -tuners.across / 2};
    return {between(count - 1 - index, count - half), tuners.across / 2};
  }
  const double side = tuners.layout == cases::TunerLayout::bass_line ? -1 : 1;
  const unsigned place = side < 0 ? index : count - 1 - index;
  return {between(place, count), side * tuners.across};
}

std::vector<unsigned> nodes_near(const Space &space, unsigned face_id, const Vec3 &point,
                                 double radius)
{
  std::vector<std::pair<double, unsigned>> found;
  for (const FaceNode &n : face_nodes(space, face_id)) {
    const Vec3 d = minus(space.position[n.node], point);
    found.emplace_back(std::sqrt(d[0] * d[0] + d[1] * d[1] + d[2] * d[2]), n.node);
  }
  std::sort(found.begin(), found.end());
  std::vector<unsigned> nodes;
  for (const auto &[distance, node] : found)
    if (distance <= radius || !can_carry_moment(space, nodes))
      nodes.push_back(node);
  return nodes;
}

StringPull make_string_pull(const cases::Case &the_case, const cases::Strings &strings,
                            const Model &model, const materials::Tables &tables, int line)
{
  const cases::NeckShape &neck = the_case.neck;
  const auto &set = tables.string_set(strings.set, the_case.file, line);
  const std::vector<double> tension =
      materials::tensions(set, neck.scale_length, strings.pitch_shift);
  const unsigned n = tension.size();
  const double join = cases::fret_position(neck.scale_length, neck.join_fret);
  const double board_top = neck.board_thickness;
  const double nut_z = board_top + strings.height_at_nut;
  const double slope = (strings.height_at_join - strings.height_at_nut) / join;
  const std::vector<unsigned> seat = nut_seat(model.space, neck);

  StringPull pull;
  pull.load.assign(model.n_unknowns(), 0.);
  for (unsigned s = 0; s < n; ++s) {
    // The table lists treble first; strings are counted from the bass here.
    const double T = tension[n - 1 - s];
    pull.total += T;
    const double share = n < 2 ? 0. : -0.42 + 0.84 * s / (n - 1);
    const Vec3 nut{0, share * neck.nut_width, nut_z};
    const Vec3 to_bridge = unit({1, 0, slope});
    const PostPlace place = post_place(the_case.tuners, s, n);
    const auto face = mesh::on_headstock_face(neck, place.along, place.across);
    const Vec3 foot{face[0], face[1], face[2]};
    const Vec3 post{face[0] + post_height * std::sin(-neck.headstock.angle), face[1],
                    face[2] + post_height * std::cos(neck.headstock.angle)};
    const Vec3 to_post = unit(minus(post, nut));
    for (const auto &[direction, force] : {std::pair(to_bridge, T), std::pair(to_post, T)})
      add_times(spread_force(model.space, seat, nut, direction), force, pull.load);
    const auto bush =
        nodes_near(model.space, unsigned(mesh::Face::headstock_face), foot, post_radius);
    add_times(spread_force(model.space, bush, post, to_post), -T, pull.load);
  }
  const Row nut_rise = spread_force(model.space, seat, {0, 0, nut_z}, {0, 0, 1});
  pull.current_shape = shape_springs(model, nut_rise, pull.total, neck.scale_length, join);
  return pull;
}
} // namespace overbend::solver
