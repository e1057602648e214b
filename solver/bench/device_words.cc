// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/bench/device_words.h"

#include "cases/case/posts.h"
#include "cases/text/suggest.h"
#include "cases/text/units.h"
#include "solver/bench/device.h"
#include "solver/words/places.h"
#include "solver/words/shop_words.h"

#include <cmath>
#include <stdexcept>
#include <vector>

namespace overbend::solver
{
namespace
{
using cases::both_lengths;
using cases::Device;
using cases::Side;

// "bass post 2", "treble posts 1 and 2"; nothing for a side without.
std::string posts_of(const std::vector<PulledPost> &posts, const std::string &side)
{
  std::vector<std::string> numbers;
  for (const PulledPost &post : posts)
    numbers.push_back(std::to_string(post.name.number));
  if (numbers.empty())
    return "";
  return side + (numbers.size() > 1 ? " posts " : " post ") + cases::listed(numbers, "and");
}

std::string way_of_the_cord(const cases::Case &c, const materials::Tables &tables)
{
  if (tables.tuner(c.tuners.kind).kind == materials::TunerKind::roller)
    return "through the slot and straight down to the bench";
  return c.bench.turned_over ? "straight down to the bench, in line with the post"
                             : "over the edge of the headstock and straight down to the bench";
}

std::string cords_in_words(const cases::Case &c, const materials::Tables &tables)
{
  const auto bass = pulled_posts(c, tables, Side::bass),
             treble = pulled_posts(c, tables, Side::treble);
  const bool both = !bass.empty() && !treble.empty();
  const std::string names =
      posts_of(bass, "bass") + (both ? " and " : "") + posts_of(treble, "treble");
  std::string text = both ? "Cords on both sides, from " : "Cords on one side, from ";
  text += names + " (counted from the nut), " + way_of_the_cord(c, tables) + ", " +
          stiffness_in_words(c.bench.cord_stiffness) + " each";
  if (bass.size() > 1 || treble.size() > 1)
    text += "; those of one side drawn alike";
  if (!both)
    text += ". They pull on one side: the twist comes as it comes";
  return text + ".";
}

std::string strap_in_words(const cases::Case &c)
{
  const cases::Bench &b = c.bench;
  return "Strap of " + both_lengths(b.strap_width) +
         (b.turned_over ? " under the back of the headstock, its middle "
                        : " over the shaft, its middle ") +
         both_lengths(-b.strap_x) + " behind the nut, both ends down to the bench, " +
         stiffness_in_words(b.strap_stiffness) +
         " in all; over the end of the heating bar if that lies there.";
}

std::string bar_in_words(const cases::Case &c, const std::string &ends)
{
  return "Bar clamped across the headstock " + both_lengths(c.bench.bar_place) + " from the nut, " +
         ends + " at " + both_lengths(c.bench.bar_arm) + " from the centre line, " +
         stiffness_in_words(c.bench.cord_stiffness) + " each.";
}

std::string caul_in_words(const cases::Case &c)
{
  const cases::Bench &b = c.bench;
  return std::string("Caul of ") + both_lengths(b.caul_width) + " on the " +
         (b.turned_over ? "back " : "board ") + at_fret(c, b.caul_x) +
         ", clamped down between two " + "padded supports of " + both_lengths(b.cradle_width) +
         " under the " + (b.turned_over ? "board, " : "back, ") + at_fret(c, b.support_nut) +
         " and " + at_fret(c, b.support_body) + ".";
}
} // namespace

std::string device_in_words(const cases::Case &c, const materials::Tables &tables)
{
  const std::string face_down = c.bench.turned_over ? "Instrument face down. " : "";
  switch (c.bench.device) {
  case Device::posts:
    return face_down + cords_in_words(c, tables);
  case Device::strap:
    return face_down + strap_in_words(c) + " It sets the bow and not the twist.";
  case Device::headstock_bar:
    return face_down + bar_in_words(c, "a cord straight down to the bench from each end,");
  case Device::strap_and_bar:
    return face_down + strap_in_words(c) + " " +
           bar_in_words(c, "one end pulled down and the other up alike,");
  case Device::caul:
    return face_down + caul_in_words(c) + " It sets the bow and not the twist.";
  }
  throw std::logic_error("device of the bench");
}
} // namespace overbend::solver
