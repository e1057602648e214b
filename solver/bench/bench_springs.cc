// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/bench/bench_springs.h"

#include "mesh/names.h"
#include "solver/bench/device.h"
#include "solver/bench/pad_springs.h"
#include "solver/bench/string_pull.h"
#include "solver/model/interfaces.h"
#include "solver/words/pull_names.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>

namespace overbend::solver
{
namespace
{
using cases::Device;

// A block of hard wood under the headstock, N/m (estimate).
constexpr double block_stiffness = 5e6;
// Radius of the wood that a cord pulls on, and half the width of a bar across the headstock, m
// (common practice, no source).
constexpr double cord_radius = 12e-3, bar_half_width = 15e-3;

class Maker
{
public:
  Maker(const cases::Case &the_case, const Model &the_model) : c(the_case), model(the_model) {}

  // Against the pull: up, or down in a set-up turned over.
  double against() const { return c.bench.turned_over ? -1 : 1; }

  // Movement of a place against the pull, over the bench.
  Row rise(Row w, double x) const
  {
    for (auto &entry : w)
      entry.second *= against();
    return tipped(std::move(w), against(), x);
  }

  Row cord(const Vec3 &foot) const
  {
    const auto nodes =
        nodes_near(model.space, unsigned(mesh::Face::headstock_face), foot, cord_radius);
    return rise(spread_force(model.space, nodes, foot, {0, 0, 1}), foot[0]);
  }

  Row cords(const std::vector<Vec3> &feet) const
  {
    Row mean;
    for (const Vec3 &foot : feet)
      mean = combine(mean, cord(foot), 1. / double(feet.size()));
    return mean;
  }

  // A piece that lies across the face there and presses evenly.
  Row pressed(mesh::Face face, PadSide side, double x, double width) const
  {
    const auto points = pad_points(model.space, unsigned(face), x - width / 2, x + width / 2, side);
    // Pressing from above moves the surface down: towards the piece is up.
    const double up = side == PadSide::above ? 1 : -1;
    return tipped(mean_towards(points, x), up, x);
  }

  // Nodes of the headstock's face under a bar, the next ones too where they carry no moment.
  std::vector<unsigned> under_bar(double x) const
  {
    std::vector<std::pair<double, unsigned>> off;
    for (const FaceNode &n : face_nodes(model.space, unsigned(mesh::Face::headstock_face)))
      off.emplace_back(std::abs(model.space.position[n.node][0] - x), n.node);
    std::sort(off.begin(), off.end());
    std::vector<unsigned> nodes;
    for (const auto &[distance, node] : off)
      if (distance <= bar_half_width || !can_carry_moment(model.space, nodes))
        nodes.push_back(node);
    return nodes;
  }

  Row end_of_bar(const Vec3 &end) const
  {
    return rise(spread_force(model.space, under_bar(end[0]), end, {0, 0, 1}), end[0]);
  }

  // A couple turns nothing about the pads: it has no part of the body's tip.
  Row turn_of_bar(double x, double arm) const
  {
    Row row = spread_moment(model.space, under_bar(x), {1, 0, 0});
    for (auto &entry : row)
      entry.second *= against() * arm;
    return row;
  }

  Row row_of(const DevicePull &pull) const
  {
    switch (c.bench.device) {
    case Device::posts:
      return cords(pull.at);
    case Device::strap:
    case Device::strap_and_bar:
      if (pull.is_couple())
        return turn_of_bar(pull.x(), pull.arm);
      return strap(pull.x());
    case Device::headstock_bar:
      return end_of_bar(pull.at.at(0));
    case Device::caul:
      return pressed(c.bench.turned_over ? mesh::Face::back : mesh::Face::board_top,
                     c.bench.turned_over ? PadSide::below : PadSide::above, pull.x(),
                     c.bench.caul_width);
    }
    throw std::logic_error("device of the bench");
  }

  std::vector<Spring> pad(double x, double width) const
  {
    const bool over = c.bench.turned_over;
    std::vector<Spring> springs;
    for (const PadPoint &point :
         pad_points(model.space, unsigned(over ? mesh::Face::board_top : mesh::Face::back),
                    x - width / 2, x + width / 2, over ? PadSide::above : PadSide::below)) {
      Spring s;
      s.name = "cradle";
      s.role = SpringRole::cradle;
      s.row = tipped(point.towards, over ? 1 : -1, point.position[0]);
      s.stiffness = c.bench.cradle_pad * point.area;
      s.one_sided = true;
      springs.push_back(s);
    }
    if (springs.empty())
      throw std::logic_error("the cradle meets nothing of the neck");
    return springs;
  }

private:
  // Over the strap the headstock's face is pressed down; turned over, the back is.
  Row strap(double x) const
  {
    const bool over = c.bench.turned_over;
    return pressed(over ? mesh::Face::headstock_other : mesh::Face::headstock_face,
                   over ? PadSide::below : PadSide::above, x, c.bench.strap_width);
  }

  Row tipped(Row row, double share, double x) const
  {
    row.emplace_back(model.tip_dof(), share * (pads_position(c) - x));
    return row;
  }

  const cases::Case &c;
  const Model &model;
};
} // namespace

double pads_position(const cases::Case &c)
{
  return cases::fret_position(c.neck.scale_length, c.neck.join_fret) + c.bench.pad_distance;
}

std::vector<Spring> pull_springs(const cases::Case &c, const Model &model,
                                 const materials::Tables &tables)
{
  const Maker make(c, model);
  const std::vector<std::string> names = pull_names(c);
  std::vector<Spring> springs;
  for (const DevicePull &pull : device_pulls(c, tables)) {
    Spring s;
    s.pull = unsigned(springs.size());
    s.name = names.at(s.pull);
    s.role = SpringRole::pull;
    s.row = make.row_of(pull);
    // Both ends of a couple stretch alike.
    s.stiffness = pull.is_couple() ? 2 * pull.stiffness : pull.stiffness;
    s.one_sided = !pull.is_couple();
    springs.push_back(s);
  }
  return springs;
}

std::vector<Spring> pad_bearings(const cases::Case &c, const Model &model)
{
  const Maker make(c, model);
  const cases::Bench &bench = c.bench;
  if (bench.device != Device::caul)
    return make.pad(bench.cradle_x, bench.cradle_width);
  std::vector<Spring> springs = make.pad(bench.support_nut, bench.cradle_width);
  const std::vector<Spring> other = make.pad(bench.support_body, bench.cradle_width);
  springs.insert(springs.end(), other.begin(), other.end());
  return springs;
}

Spring stop_block(const cases::Case &c, const Model &model, const materials::Tables &tables,
                  const std::vector<Spring> &pulls)
{
  Spring block;
  block.name = "stop block";
  block.role = SpringRole::block;
  block.stiffness = block_stiffness;
  block.one_sided = true;
  Row rise = pulls.at(0).row;
  if (pulls.size() == 2 && pulls[0].one_sided && pulls[1].one_sided)
    rise = combine(combine({}, pulls[0].row, 0.5), pulls[1].row, 0.5);
  else if (c.bench.device == Device::posts) {
    Vec3 middle = device_pulls(c, tables).at(0).at.at(0);
    middle[1] = 0;
    rise = Maker(c, model).cord(middle);
  }
  block.row = combine({}, rise, -1);
  return block;
}
} // namespace overbend::solver
