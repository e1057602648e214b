// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/case/posts.h"
#include "cases/check/checking.h"
#include "cases/text/units.h"

#include <algorithm>
#include <cmath>

// Contradictions in what pulls or presses on the neck.
namespace overbend::cases
{
namespace
{
constexpr double bar_half_width = 15e-3; // of what is clamped across the headstock [E]
constexpr double straight = 0.3e-3;      // m: below that a bow has no side to speak of

double headstock_reach(const Case &result)
{
  const Headstock &head = result.neck.headstock;
  return head.length * std::cos(head.angle);
}

bool uses_strap(const Bench &bench)
{
  return bench.device == Device::strap || bench.device == Device::strap_and_bar;
}

bool uses_bar(const Bench &bench)
{
  return bench.device == Device::headstock_bar || bench.device == Device::strap_and_bar;
}

void check_posts(const Case &result)
{
  const Bench &bench = result.bench;
  if (bench.posts.empty())
    return;
  if (bench.device != Device::posts)
    refuse_any(result, {"bench.posts", "bench.device"},
               "posts are named, but the cords do not go to posts",
               "leave `posts` out, or write device = \"posts\"");
  const auto only = only_side(result.tuners.layout);
  for (const Side side : {Side::bass, Side::treble}) {
    const std::string word = side == Side::bass ? "bass" : "treble";
    const bool named = !posts_named(bench.posts, side).empty();
    if (!only && !named)
      refuse(result, "bench.posts", "no post of the " + word + " side is named",
             "name one to three posts a side, such as \"bass 2, treble 2\"");
    if (only && *only != side && named)
      refuse_any(result, {"bench.posts", "tuners.layout"},
                 "there is no post on the " + word + " side: all stand on the other",
                 "name posts of that side, or leave `posts` out: a bar across the headstock then "
                 "sets the twist too");
  }
}

void check_strap_and_bar(const Case &result)
{
  const Bench &bench = result.bench;
  const double reach = headstock_reach(result);
  const double half = bench.strap_width / 2;
  if (uses_strap(bench) && (bench.strap_x + half > 0 || bench.strap_x - half < -reach))
    refuse_any(result, {"bench.strap", "bench.strap_width"},
               "a strap of " + both_lengths(bench.strap_width) + " at " +
                   both_lengths(bench.strap_x) + " does not lie on the headstock",
               "it lies just behind the nut: give a negative place, at least half its width");
  const double length = result.neck.headstock.length;
  if (uses_bar(bench) && bench.bar_place + bar_half_width > length)
    refuse_any(result, {"bench.bar_place", "headstock.length"},
               "the bar, " + both_lengths(2 * bar_half_width) + " wide, at " +
                   both_lengths(bench.bar_place) + " from the nut is off the headstock (" +
                   both_lengths(length) + ")",
               "clamp it nearer to the nut");
  if (uses_bar(bench) && 2 * bench.bar_arm < result.neck.headstock.width)
    refuse_any(result, {"bench.bar_arm", "headstock.width"},
               "the arms of the bar (" + both_lengths(bench.bar_arm) +
                   ") end above the headstock (" + both_lengths(result.neck.headstock.width) +
                   " wide)",
               "give the distance from the centre line to the cord, beyond the edge");
}

void check_caul(const Case &result)
{
  const Bench &bench = result.bench;
  if (bench.device != Device::caul)
    return;
  if (bench.stop_block)
    refuse_any(
        result, {"bench.stop_block", "bench.device"},
        "a stop block stands under a headstock that is pulled, but the caul presses the neck",
        "leave the block out, or take another device");
  const double nut_gap = (bench.cradle_width + bench.caul_width) / 2;
  if (bench.support_nut + nut_gap > bench.caul_x || bench.caul_x + nut_gap > bench.support_body)
    refuse_any(result, {"bench.caul", "bench.caul_support_nut", "bench.caul_support_body"},
               "the caul at " + both_lengths(bench.caul_x) +
                   " does not lie between its supports (" + both_lengths(bench.support_nut) +
                   " and " + both_lengths(bench.support_body) + ")",
               "set the supports wider apart");
  const double half = bench.cradle_width / 2, join = join_position(result.neck);
  if (bench.support_nut < half || bench.support_body + half > join)
    refuse_any(result, {"bench.caul_support_nut", "bench.caul_support_body", "bench.cradle_width"},
               "a support of " + both_lengths(bench.cradle_width) +
                   " hangs over the end of the shaft",
               "set the supports on the shaft, between nut and body join");
}

// A set-up that can only bend the neck further the way it is bowed.
void check_direction(const Case &result)
{
  const Bench &bench = result.bench;
  const bool forward = (bench.device == Device::caul) != bench.turned_over;
  const double bow = result.found.bow_centre;
  if (forward && bow > straight)
    refuse_any(result, {"bench.turned_over", "bench.device"},
               "this set-up bows the neck forward, but the neck is bowed forward by " +
                   both_lengths(bow),
               "write turned_over = " + std::string(bench.turned_over ? "false" : "true") +
                   ", or take another device");
}
} // namespace

std::vector<OnBoard> clamp_on_board(const Bench &bench)
{
  const double half = bench.cradle_width / 2, caul = bench.caul_width / 2;
  if (bench.device == Device::caul && !bench.turned_over)
    return {{"caul", "the caul", bench.caul_x - caul, bench.caul_x + caul}};
  if (!bench.turned_over)
    return {};
  if (bench.device != Device::caul)
    return {{"cradle", "the cradle of a neck turned over", bench.cradle_x - half,
             bench.cradle_x + half}};
  return {{"caul_support_nut", "a support of the neck turned over", bench.support_nut - half,
           bench.support_nut + half},
          {"caul_support_body", "a support of the neck turned over", bench.support_body - half,
           bench.support_body + half}};
}

void check_device(const Case &result)
{
  check_posts(result);
  check_strap_and_bar(result);
  check_caul(result);
  check_direction(result);
}
} // namespace overbend::cases
