// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/verdict/verdict_need.h"

#include "cases/text/units.h"
#include "solver/readings/fret_surface.h"
#include "solver/readings/neck_angle.h"
#include "solver/verdict/stiffness_told.h"
#include "solver/words/shop_words.h"

#include <algorithm>
#include <cmath>
#include <vector>

namespace overbend::solver
{
namespace
{
using cases::both_lengths;

const char *const use_level = "level the board and refret";
const char *const level_frets =
    "seat the frets that stand up, level them (or replace the worn ones), and read again";

// What is read, with what of it the frets make; nothing of it where the wood is meant.
struct Seen
{
  Reading reading;
  double frets = 0; // of the bow at the centre, m
};

// Unstrung bow that is wanted with a rod that works, m (trade: after repair [T]).
bool within_wanted_range(const cases::Case &c, const materials::WorkLimits &limits,
                         const Seen &seen)
{
  const double bow = seen.reading.bow;
  if (c.found.strung_bow && c.target.rod == cases::acting(c.neck.rod.state))
    return std::abs(*c.found.strung_bow - seen.frets - c.target.relief) < limits.least_bow;
  if (c.target.rod != cases::RodState::set)
    return false;
  if (c.neck.rod.kind == cases::RodKind::single_action)
    return bow >= 0 && bow <= 0.15e-3;
  if (c.neck.rod.kind == cases::RodKind::two_way)
    return bow >= -0.05e-3 && bow <= 0.10e-3;
  return false;
}

// A bow that is noise is nothing to do only where straight is what is wanted.
bool is_noise(const Reading &r, const materials::WorkLimits &limits)
{
  return std::abs(r.bow) < limits.least_bow && std::abs(r.bow_bass) < 2 * limits.least_bow &&
         std::abs(r.bow_treble) < 2 * limits.least_bow;
}

bool needs_nothing(const cases::Case &c, const materials::WorkLimits &limits, const Seen &seen)
{
  return std::abs(seen.reading.twist - c.target.twist) < limits.least_twist &&
         (is_noise(seen.reading, limits) || within_wanted_range(c, limits, seen));
}

std::string angle_words(const NeckAngle &angle)
{
  return "It is the neck angle, " + side_in_words(angle) + ", and not a bow. " + in_words(angle) +
         " A bad angle is not a bow: heat and clamping will not cure it.";
}

const std::vector<std::string> &instead_of_an_angle()
{
  static const std::vector<std::string> ways = {
      "a neck reset, a shim in the pocket of a bolted neck, or work on bridge and saddle; look for "
      "a loose heel joint and a sunken top first"};
  return ways;
}

void judge_angle(const cases::Case &c, const materials::WorkLimits &limits, bool nothing,
                 Verdict &v)
{
  const std::optional<NeckAngle> angle = neck_angle(c, limits);
  if (!angle || angle->out == 0)
    return;
  if (angle->wrong && nothing)
    v.refuse(angle_words(*angle), instead_of_an_angle(), Verdict::not_by_heat);
  else if (angle->wrong)
    v.caution("The neck angle is " + side_in_words(*angle) +
                  " as well, and straightening leaves it: it takes out the bow only. " +
                  in_words(*angle) + " Expect a reset beside this job, and tell the owner.",
              Verdict::Of::the_neck);
  else
    v.caution("The neck angle may be " + side_in_words(*angle) + ": it is off by no more than " +
                  both_lengths(limits.over_bridge_error) +
                  ", which is what this reading can tell. Straightening does not change it. " +
                  in_words(*angle),
              Verdict::Of::the_neck);
}

// Nothing to do by what is read; the frets may hide a bow of the wood.
void refuse_right_reading(const cases::Case &c, const materials::WorkLimits &limits,
                          bool wood_is_right, Verdict &v)
{
  const Reading r = as_found_at_bench(c);
  std::string reason =
      "Nothing to do: the bow (" + bow_in_words(r.bow) + ") is " +
      (is_noise(r, limits) ? "below what a straightedge can tell, " + both_lengths(limits.least_bow)
                           : "already where it should be") +
      ", and the twist (" + twist_in_words(r.twist) + ") below what anybody notices.";
  if (!wood_is_right)
    reason += " But the frets hide what the wood does: " + frets_in_words(c) +
              ". Leveled frets would show it.";
  v.refuse(reason, {"set it up as it is: rod, frets, nut and saddle"}, Verdict::nothing_to_do);
}

std::string part_of(double frets, double reading)
{
  return signed_length(frets) + " of " + signed_length(reading);
}
} // namespace

std::string frets_in_words(const cases::Case &c)
{
  if (!frets_matter(c))
    return "";
  const Reading f = of_surface(c), r = as_found_at_bench(c);
  const double least = c.target.bow_tolerance;
  const bool alike = std::abs(f.bow_bass - f.bow) <= least &&
                     std::abs(f.bow_treble - f.bow) <= least && std::abs(f.bow) > least;
  std::string text;
  if (alike && f.bow * r.bow > 0 && std::abs(f.bow) <= std::abs(r.bow))
    text = both_lengths(std::abs(f.bow)) + " of the " + both_lengths(std::abs(r.bow)) +
           " reading at the centre is frets, not neck";
  else if (std::max({std::abs(f.bow_bass), std::abs(f.bow), std::abs(f.bow_treble)}) > least)
    text = "frets, not neck, make bass " + part_of(f.bow_bass, r.bow_bass) + ", centre " +
           part_of(f.bow, r.bow) + ", treble " + part_of(f.bow_treble, r.bow_treble) +
           " of the bow";
  if (std::abs(f.twist) > c.target.twist_tolerance)
    text += (text.empty() ? "" : "; ") + cases::degrees(f.twist) + " of the twist (" +
            cases::degrees(r.twist) + ") is frets: sticks on them lie";
  return text + "; the wood itself: " + bow_in_words(r.bow - f.bow) + " at the centre, twist " +
         twist_in_words(r.twist - f.twist);
}

void judge_need(const cases::Case &c, const materials::WorkLimits &limits, Verdict &v)
{
  const bool nothing = needs_nothing(c, limits, {as_found_at_bench(c), 0});
  const bool wood_is_right = needs_nothing(c, limits, {found_wood(c), of_surface(c).bow});
  const auto angle = neck_angle(c, limits);
  if (!nothing && wood_is_right && frets_matter(c)) {
    v.refuse("It is the frets, not the neck: " + frets_in_words(c) +
                 ". The wood is where it should be, and bending it to suit worn or high frets "
                 "would spoil it.",
             {level_frets}, Verdict::not_by_heat);
  } else if (nothing && !(angle && angle->wrong)) {
    refuse_right_reading(c, limits, wood_is_right, v);
  } else if (frets_matter(c)) {
    v.caution("Frets have their part in the reading: " + frets_in_words(c) +
              ". Level or seat them first and read again; this plan aims at what an edge on the "
              "frets as they are would read.");
  }
  judge_angle(c, limits, nothing || wood_is_right, v);
}

namespace
{
void refuse_right_when_strung(const cases::Case &c, double strung, Verdict &v)
{
  const auto angle = neck_angle(c, materials::tables().limits);
  if (angle && angle->wrong)
    v.refuse(angle_words(*angle) + " Strung up as it is, this neck will read about " +
                 bow_in_words(strung) + ".",
             instead_of_an_angle(), Verdict::not_by_heat);
  else
    v.refuse("Nothing to do: strung up as it is, this neck will read about " +
                 bow_in_words(strung) + ", and " + both_lengths(c.target.relief) + " is wanted.",
             {"string it up and set it up as it is"}, Verdict::nothing_to_do);
}
} // namespace

namespace
{
bool bends_forward(const cases::Case &c)
{
  return c.bench.turned_over != (c.bench.device == cases::Device::caul);
}
} // namespace

Verdict judge_lift(const cases::Case &c, const Lifts &lifts, std::optional<double> stiffness_factor)
{
  const materials::WorkLimits &limits = materials::tables().limits;
  Verdict v;
  judge_stiffness(c, lifts, stiffness_factor, v);
  const bool rod_helps = c.target.rod == cases::RodState::set;
  // A rod that is to bow the neck forward gives relief of its own.
  const bool rod_lifts = rod_helps && c.neck.rod.bows == cases::RodBows::forward;
  const double lift = rod_lifts ? lifts.at_target : lifts.planned;
  const double strung = c.found.bow_centre + lift / stiffness_factor.value_or(1);
  const Reading frets = of_surface(c);
  const auto is_right = [&](const Reading &part) {
    const double twist = as_found_at_bench(c).twist - part.twist - c.target.twist;
    return !rod_helps && std::abs(strung - part.bow - c.target.relief) < limits.least_bow &&
           std::abs(twist) < limits.least_twist;
  };
  if (is_right({}))
    refuse_right_when_strung(c, strung, v);
  else if (frets_matter(c) && is_right(frets))
    v.refuse("It is the frets, not the neck: strung up as it is, the wood will read about " +
                 bow_in_words(strung - frets.bow) + ", and " + both_lengths(c.target.relief) +
                 " is wanted. " + frets_in_words(c) + ".",
             {level_frets}, Verdict::not_by_heat);
  // Any other working rod at the end only takes more of the relief away.
  else if (strung < c.target.relief - limits.least_bow && !v.refused() && !bends_forward(c))
    v.refuse("Strung up as it is, this neck will read about " + bow_in_words(strung) + ", and " +
                 both_lengths(c.target.relief) +
                 " forward is wanted: it would have to be bent forward. Cords and cradle of this "
                 "bench only pull it back.",
             {"slacken the rod and let it rest for some days, then read again",
              "turn the set-up over (bench.turned_over), or press it with a caul",
              "heavier strings, if the instrument takes them", use_level});
  return v;
}
} // namespace overbend::solver
