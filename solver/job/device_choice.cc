// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/job/device_choice.h"

#include "solver/bench/device_reach.h"
#include "solver/bench/pull_limits.h"
#include "solver/plan/first_guess.h"

#include <algorithm>
#include <cmath>

namespace overbend::solver
{
namespace
{
using cases::Device;

constexpr double hot_share = 0.8, beam_factor = 16.5;                     // see NeckNeeds
constexpr double per_degree = 3.6, degree = 3.14159265358979323846 / 180; // N m
// Share of a clamped twist that stays (trade 2.5: 53 to 63 % with complete slip [E]).
constexpr double twist_kept = 0.5;
constexpr unsigned most_posts = 3; // a side
// A twist below this needs no torque of its own (rad): the strap leaves it as it is.
constexpr double little_twist = 0.1 * degree;

std::size_t strings_of(const cases::Case &c, const materials::Tables &tables)
{
  return tables.string_set(c.strings.set).strings.size();
}

// The n posts of a side nearest to its middle one, with posts on both sides.
std::vector<cases::Post> middle_posts(unsigned n, unsigned on_side)
{
  std::vector<cases::Post> posts;
  const int first = int(on_side - n) / 2 + 1;
  for (const cases::Side side : {cases::Side::bass, cases::Side::treble})
    for (unsigned k = 0; k < n; ++k)
      posts.push_back({side, first + int(k)});
  return posts;
}

std::vector<cases::Bench> candidates(const cases::Case &c, const materials::Tables &tables,
                                     const NeckNeeds &needs)
{
  std::vector<cases::Bench> all;
  const auto add = [&](Device device, std::vector<cases::Post> posts = {}) {
    cases::Bench bench = c.bench;
    bench.device = device;
    bench.posts = std::move(posts);
    all.push_back(bench);
  };
  const bool two_rows = c.tuners.layout == cases::TunerLayout::both_sides;
  const bool twisted = needs.torque > per_degree * little_twist / degree;
  if (two_rows) {
    const unsigned on_side = unsigned(strings_of(c, tables) / 2);
    add(Device::posts);
    for (unsigned n = 2; n <= std::min(most_posts, on_side); ++n)
      add(Device::posts, middle_posts(n, on_side));
  }
  if (!twisted)
    add(Device::strap);
  add(Device::headstock_bar);
  add(Device::strap_and_bar);
  return all;
}

// What is asked over what is borne; more than 1, or infinite where a cord would have to push.
double strain(const cases::Case &c, const materials::Tables &tables, const NeckNeeds &needs)
{
  const std::vector<DevicePull> pulls = device_pulls(c, tables);
  const std::vector<PullLimit> limits = pull_limits(c, tables);
  double most = 0;
  for (const double torque : {needs.torque, -needs.torque}) {
    const PullsNeeded asked = pulls_for(pulls, {needs.pull, torque});
    if (asked.pushes || std::abs(asked.torque_missing) > per_degree * little_twist / degree)
      return HUGE_VAL;
    for (std::size_t k = 0; k < asked.pull.size(); ++k)
      most = std::max(most, std::abs(asked.pull[k]) / limits[k].refuse);
  }
  return most;
}
} // namespace

NeckNeeds needs_of(const cases::Case &c, const materials::Tables &tables, double lift,
                   double tension, double kept)
{
  const SlippingBeam beam = slipping_beam(c, tension, 0.4, lift);
  const double span = cases::fret_position(c.neck.scale_length, c.found.rest_fret_b) -
                      cases::fret_position(c.neck.scale_length, c.found.rest_fret_a);
  const double released = c.target.relief - lift;
  const double furthest =
      std::abs(c.found.bow_centre) + tables.limits.most_overbend(c.neck.scale_length);
  const double way =
      std::min(furthest, std::abs(c.found.bow_centre - released) / std::max(0.1, kept));
  NeckNeeds needs;
  needs.pull = hot_share * beam_factor * beam.EI / (span * span * span) * way;
  const double twist = std::abs(c.found.twist.value_or(0) - c.target.twist);
  needs.torque = hot_share * per_degree / degree * twist / twist_kept;
  return needs;
}

std::vector<cases::Bench> device_choices(const cases::Case &c, const materials::Tables &tables,
                                         const NeckNeeds &needs)
{
  if (!c.left_open.device)
    return {c.bench};
  struct Choice
  {
    cases::Bench bench;
    double strain;
  };
  std::vector<Choice> choices;
  for (const cases::Bench &bench : candidates(c, tables, needs)) {
    cases::Case with = c;
    with.bench = bench;
    choices.push_back({bench, strain(with, tables, needs)});
  }
  // Those in reach keep their order; the others come after them, the least strained first: what
  // the neck really asks may be less.
  std::stable_sort(choices.begin(), choices.end(), [](const Choice &a, const Choice &b) {
    return std::max(1., a.strain) < std::max(1., b.strain);
  });
  std::vector<cases::Bench> benches;
  for (const Choice &choice : choices)
    if (choice.strain < HUGE_VAL || benches.empty())
      benches.push_back(choice.bench);
  return benches;
}

bool spares_headstock(Device device)
{
  return device == Device::strap || device == Device::strap_and_bar || device == Device::caul;
}
} // namespace overbend::solver
