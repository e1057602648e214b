// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/words/pull_names.h"

#include "cases/case/posts.h"

#include <stdexcept>

namespace overbend::solver
{
namespace
{
std::string cords(const std::vector<cases::Post> &posts, cases::Side side)
{
  return cases::posts_named(posts, side).size() > 1 ? "cords" : "cord";
}
} // namespace

std::vector<std::string> pull_names(const cases::Case &the_case)
{
  using cases::Device;
  using cases::Side;
  const cases::Bench &bench = the_case.bench;
  switch (bench.device) {
  case Device::posts:
    if (const auto side = cases::only_side(the_case.tuners.layout))
      return {cords(bench.posts, *side)};
    return {"bass " + cords(bench.posts, Side::bass), "treble " + cords(bench.posts, Side::treble)};
  case Device::strap:
    return {"strap"};
  case Device::headstock_bar:
    return {"bass end of the bar", "treble end of the bar"};
  case Device::strap_and_bar:
    return {"strap", "bar"};
  case Device::caul:
    return {"caul"};
  }
  throw std::logic_error("device of the bench");
}

bool sets_twist(const cases::Case &the_case)
{
  return pull_names(the_case).size() == 2;
}
} // namespace overbend::solver
