// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/bench/pull_limits.h"

#include "cases/case/posts.h"
#include "solver/bench/device.h"

#include <algorithm>
#include <stdexcept>

namespace overbend::solver
{
namespace
{
using cases::Device;
using cases::Side;

constexpr double caution_share = 0.8;

PullLimit limit_of(double refuse, PullBound bound)
{
  return {caution_share * refuse, refuse, bound};
}

PullLimit side_limit(const cases::Case &c, const materials::Tables &tables, Side side)
{
  const auto posts = pulled_posts(c, tables, side);
  PullLimit least = limit_of(c.bench.cord_limit, PullBound::cord);
  for (const PulledPost &post : posts) {
    const auto bears = materials::post_limit(tables.tuner(c.tuners.kind), post.daily, post.load);
    least.caution = std::min(least.caution, bears.caution);
    if (bears.refuse < least.refuse) {
      least.refuse = bears.refuse;
      least.bound = PullBound::post;
    }
  }
  least.caution *= double(posts.size());
  least.refuse *= double(posts.size());
  return least;
}

PullLimit end_of_bar(const cases::Bench &bench)
{
  const double bar = bench.bar_moment / bench.bar_arm;
  return bar < bench.cord_limit ? limit_of(bar, PullBound::bar)
                                : limit_of(bench.cord_limit, PullBound::cord);
}
} // namespace

const char *bound_in_words(PullBound bound)
{
  switch (bound) {
  case PullBound::cord:
    return "cord";
  case PullBound::post:
    return "tuner";
  case PullBound::strap:
    return "strap";
  case PullBound::bar:
    return "bar";
  case PullBound::caul:
    return "caul";
  }
  throw std::logic_error("bound of a pull");
}

std::vector<PullLimit> pull_limits(const cases::Case &c, const materials::Tables &tables)
{
  const cases::Bench &bench = c.bench;
  switch (bench.device) {
  case Device::posts:
    if (const auto side = cases::only_side(c.tuners.layout))
      return {side_limit(c, tables, *side)};
    return {side_limit(c, tables, Side::bass), side_limit(c, tables, Side::treble)};
  case Device::strap:
    return {limit_of(bench.strap_limit, PullBound::strap)};
  case Device::headstock_bar:
    return {end_of_bar(bench), end_of_bar(bench)};
  case Device::strap_and_bar:
    return {limit_of(bench.strap_limit, PullBound::strap), end_of_bar(bench)};
  case Device::caul:
    return {limit_of(bench.caul_limit, PullBound::caul)};
  }
  throw std::logic_error("device of the bench");
}
} // namespace overbend::solver
