// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/bench/device.h"

#include "cases/case/posts.h"
#include "mesh/neck_profile.h"
#include "solver/bench/string_pull.h"

#include <cmath>
#include <numeric>
#include <stdexcept>

namespace overbend::solver
{
namespace
{
using cases::Device;
using cases::Side;

Vec3 on_face(const cases::NeckShape &neck, double along, double across)
{
  const auto p = mesh::on_headstock_face(neck, along, across);
  return {p[0], p[1], p[2]};
}

bool through_a_slot(const materials::Tuner &tuner)
{
  return tuner.kind == materials::TunerKind::roller;
}

// Where a cord from this post leaves the headstock.
Vec3 cord_leaves(const cases::Case &c, const materials::Tables &tables, const PulledPost &post)
{
  Vec3 place = on_face(c.neck, post.along, post.across);
  if (!through_a_slot(tables.tuner(c.tuners.kind)) && post.load == materials::PostLoad::sideways) {
    const double edge = mesh::NeckProfile(c.neck).half_width(place[0]);
    place[1] = post.name.side == Side::bass ? -edge : edge;
  }
  return place;
}

DevicePull cords_of(const cases::Case &c, const materials::Tables &tables, Side side)
{
  DevicePull pull;
  for (const PulledPost &post : pulled_posts(c, tables, side))
    pull.at.push_back(cord_leaves(c, tables, post));
  pull.cords = unsigned(pull.at.size());
  pull.stiffness = c.bench.cord_stiffness * pull.cords;
  return pull;
}

DevicePull strap_of(const cases::Case &c)
{
  const double along = -c.bench.strap_x / std::cos(c.neck.headstock.angle);
  return {{on_face(c.neck, along, 0)}, 0, 1, c.bench.strap_stiffness};
}

DevicePull end_of_bar(const cases::Case &c, double side)
{
  Vec3 end = on_face(c.neck, c.bench.bar_place, 0);
  end[1] = side * c.bench.bar_arm;
  return {{end}, 0, 1, c.bench.cord_stiffness};
}

DevicePull couple_of_bar(const cases::Case &c)
{
  return {{on_face(c.neck, c.bench.bar_place, 0)}, c.bench.bar_arm, 2, c.bench.cord_stiffness};
}

unsigned index_of_post(cases::TunerLayout layout, const cases::Post &post, unsigned strings)
{
  const auto number = unsigned(post.number);
  if (number < 1 || number > cases::posts_on_side(layout, post.side, strings))
    throw std::invalid_argument("there is no post " + cases::posts_text({post}));
  // The outer strings go to the posts nearest to the nut; in a line the one on the line's side.
  return post.side == Side::bass ? number - 1 : strings - number;
}
} // namespace

double DevicePull::x() const
{
  return std::accumulate(at.begin(), at.end(), 0.,
                         [](double sum, const Vec3 &p) { return sum + p[0]; }) /
         double(at.size());
}

double DevicePull::y() const
{
  return std::accumulate(at.begin(), at.end(), 0.,
                         [](double sum, const Vec3 &p) { return sum + p[1]; }) /
         double(at.size());
}

std::vector<PulledPost> pulled_posts(const cases::Case &c, const materials::Tables &tables,
                                     Side side)
{
  const auto tension = materials::tensions(tables.string_set(c.strings_found.set),
                                           c.neck.scale_length, c.strings_found.pitch_shift);
  const auto strings = unsigned(tension.size());
  const unsigned count = cases::posts_on_side(c.tuners.layout, side, strings);
  if (count == 0)
    return {};
  std::vector<int> numbers = cases::posts_named(c.bench.posts, side);
  if (numbers.empty())
    numbers = {cases::middle_post(count)};
  const bool along = c.bench.turned_over && !through_a_slot(tables.tuner(c.tuners.kind));
  std::vector<PulledPost> posts;
  for (const int number : numbers) {
    PulledPost post;
    post.name = {side, number};
    const unsigned index = index_of_post(c.tuners.layout, post.name, strings);
    const PostPlace place = post_place(c.tuners, index, strings);
    post.along = place.along;
    post.across = place.across;
    post.daily = tension[strings - 1 - index]; // the table lists treble first
    post.load = along ? materials::PostLoad::along : materials::PostLoad::sideways;
    posts.push_back(post);
  }
  return posts;
}

std::vector<DevicePull> device_pulls(const cases::Case &c, const materials::Tables &tables)
{
  switch (c.bench.device) {
  case Device::posts:
    if (const auto side = cases::only_side(c.tuners.layout))
      return {cords_of(c, tables, *side)};
    return {cords_of(c, tables, Side::bass), cords_of(c, tables, Side::treble)};
  case Device::strap:
    return {strap_of(c)};
  case Device::headstock_bar:
    return {end_of_bar(c, -1), end_of_bar(c, 1)};
  case Device::strap_and_bar:
    return {strap_of(c), couple_of_bar(c)};
  case Device::caul:
    return {{{{c.bench.caul_x, 0, c.neck.board_thickness}}, 0, 1, c.bench.caul_stiffness}};
  }
  throw std::logic_error("device of the bench");
}
} // namespace overbend::solver
