// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/check/checking.h"
#include "cases/text/error.h"
#include "cases/text/units.h"

#include <algorithm>
#include <cmath>

namespace overbend::cases
{
void refuse_any(const Case &result, const std::vector<std::string> &names, const std::string &what,
                const std::string &remedy)
{
  for (const std::string &name : names)
    if (result.lines.count(name) > 0)
      throw CaseError(result.file, line_of(result, name), what, remedy);
  throw CaseError(result.file, line_of(result, names.front()), what, remedy);
}

void refuse(const Case &result, const std::string &name, const std::string &what,
            const std::string &remedy)
{
  refuse_any(result, {name}, what, remedy);
}

double join_position(const NeckShape &neck)
{
  return fret_position(neck.scale_length, neck.join_fret);
}

double board_end(const NeckShape &neck)
{
  return fret_position(neck.scale_length, neck.frets) + neck.board_end;
}

double width_at(const NeckShape &neck, double x)
{
  const double at_12 = fret_position(neck.scale_length, 12);
  return neck.nut_width + (neck.width_at_12 - neck.nut_width) * x / at_12;
}

double shaft_depth(const NeckShape &neck, double x)
{
  const double at_1 = fret_position(neck.scale_length, 1);
  const double at_12 = fret_position(neck.scale_length, 12);
  const double slope = (neck.depth_at_12 - neck.depth_at_1) / (at_12 - at_1);
  return neck.depth_at_1 + slope * (x - at_1) - neck.board_thickness;
}

bool adjustable(const Rod &rod)
{
  return rod.kind == RodKind::single_action || rod.kind == RodKind::two_way;
}

namespace
{
void check_no_rod(const Case &result)
{
  const Rod &rod = result.neck.rod;
  const bool bar = rod.kind == RodKind::bonded_bar;
  const std::string owner = bar ? "a bonded bar" : "a neck without a rod";
  const auto must_be_zero = [&](const char *name, double value, const char *thing) {
    if (value > 0)
      refuse(result, name, owner + " has no " + thing,
             "leave it out, or name the kind of rod under [rod]");
  };
  if (rod.state != RodState::slack)
    refuse(result, "rod.state", owner + " has no rod state",
           "leave the state out, or name the kind of rod");
  must_be_zero("rod.diameter", rod.diameter, "rod diameter");
  must_be_zero("rod.force", rod.force.value_or(1), "rod force");
  must_be_zero("rod.fillet_depth", rod.fillet_depth, "fillet");
  if (!bar) {
    must_be_zero("rod.channel_width", rod.channel_width, "channel");
    must_be_zero("rod.channel_depth", rod.channel_depth, "channel");
  }
  if (result.target.rod != RodState::slack)
    refuse(result, "target.rod", owner + " has no rod state to aim for",
           "leave it out, or name the kind of rod under [rod]");
}

void check_channel(const Case &result)
{
  const NeckShape &neck = result.neck;
  const Rod &rod = neck.rod;
  for (const auto &[name, size] : {std::pair("rod.channel_width", rod.channel_width),
                                   std::pair("rod.channel_depth", rod.channel_depth)})
    if (!(size > 0))
      refuse_any(result, {name, "rod.kind"},
                 std::string("`") + name + "` is missing for this kind of rod",
                 "write its size, such as \"6 mm\" wide and \"10 mm\" deep");
  constexpr double least_back = 1.5e-3; // wood behind the channel [E]
  const double join = join_position(neck);
  for (double x = 0; x <= join; x += join / 32) {
    const double half = rod.channel_width / width_at(neck, x);
    const double n = neck.back_exponent;
    const double back =
        half < 1 ? shaft_depth(neck, x) * std::pow(1 - std::pow(half, n), 1 / n) : 0;
    if (back - rod.channel_depth < least_back)
      refuse_any(result, {"rod.channel_depth", "neck.depth_at_1", "neck.depth_at_12"},
                 "the channel (" + both_lengths(rod.channel_depth) + " deep) leaves less than " +
                     both_lengths(least_back) + " of back at " + both_lengths(x) + " from the nut",
                 "check its depth from the board's glue line and the depths of the neck");
  }
}

void check_rod_in_channel(const Case &result)
{
  const Rod &rod = result.neck.rod;
  const bool single = rod.kind == RodKind::single_action;
  if (!(rod.diameter > 0))
    refuse_any(result, {"rod.diameter", "rod.kind"},
               "`rod.diameter` is missing for this kind of rod", "write it, such as \"4.8 mm\"");
  if (rod.diameter > rod.channel_width)
    refuse_any(result, {"rod.diameter", "rod.channel_width"},
               "the rod is thicker than its channel is wide", "check diameter and channel_width");
  if (!single && rod.fillet_depth > 0)
    refuse(result, "rod.fillet_depth", "only a single-action rod lies under a fillet",
           "leave the fillet out, or write kind = \"single-action\"");
  const double height = single ? rod.fillet_depth + rod.diameter : 2 * rod.diameter;
  if (height > rod.channel_depth)
    refuse_any(result, {"rod.channel_depth", "rod.diameter", "rod.fillet_depth"},
               std::string(single ? "fillet and rod" : "the two halves of the rod") + " need " +
                   both_lengths(height) + ", the channel has " + both_lengths(rod.channel_depth),
               "check the depth of the channel and the size of the rod");
}

void check_states(const Case &result)
{
  const Rod &rod = result.neck.rod;
  const RodState wanted = result.target.rod;
  const bool dead = rod.state == RodState::broken || rod.state == RodState::seized;
  if (dead && wanted != rod.state)
    refuse_any(result, {"target.rod", "rod.state"},
               "a broken or seized rod can be neither set nor slackened", "leave it out");
  if (!dead && (wanted == RodState::broken || wanted == RodState::seized))
    refuse(result, "target.rod", "a rod in order is not meant to end broken or seized",
           "write \"slack\" or \"set\"");
  if (rod.state == RodState::seized) {
    // The preset's pull is that of a rod in order.
    if (result.lines.count("rod.force") == 0)
      refuse(result, "rod.state", "a seized rod needs its pull in the neck as found",
             "write force = \"600 N\" or your estimate under [rod], or force = \"unknown\"");
  } else if (!rod.force)
    refuse(result, "rod.force", "only the pull of a seized rod may be unknown",
           "write force = \"600 N\" or your estimate");
  const bool loaded = wanted == RodState::set || acting(rod.state) == RodState::set;
  if (loaded && !(*rod.force > 0))
    refuse_any(result, {"rod.force", "target.rod", "rod.state"},
               "a rod that is set or at its stop needs its pull",
               "write force = \"600 N\" or your estimate");
}
} // namespace

void check_rod(const Case &result)
{
  if (result.neck.rod.kind != RodKind::two_way && result.neck.rod.bows == RodBows::forward)
    refuse(result, "rod.bows", "only a two-way rod can bow the neck forward",
           "leave it out, or write kind = \"two-way\"");
  if (!adjustable(result.neck.rod))
    check_no_rod(result);
  if (result.neck.rod.kind == RodKind::none)
    return;
  check_channel(result);
  if (!adjustable(result.neck.rod))
    return;
  check_rod_in_channel(result);
  check_states(result);
}
} // namespace overbend::cases
