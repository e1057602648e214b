// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/verdict/stiffness_told.h"

#include "cases/text/units.h"
#include "solver/words/shop_words.h"

#include <algorithm>
#include <cmath>

namespace overbend::solver
{
namespace
{
using cases::both_lengths;

// Two readings whose difference the strings make.
struct StrungPair
{
  double strung = 0, slack = 0; // m, read
  double computed = 0;          // m, lift of the neck as its sizes and woods tell
  const char *strung_words = "strung", *slack_words = "slack";
  const char *movers = "these strings";
};

StrungPair strung_pair(const cases::Case &c, const Lifts &lifts)
{
  const cases::Found &found = c.found;
  if (found.strung_bow_rod_slack)
    return {*found.strung_bow_rod_slack, found.bow_centre,       lifts.found,
            "strung with the rod slack", "with the strings off", "these strings"};
  if (found.bow_rod_loaded)
    return {found.strung_bow.value(),
            *found.bow_rod_loaded,
            lifts.found,
            "strung with the rod as found",
            "with the strings off and the rod left so",
            "these strings"};
  return {found.strung_bow.value(),
          found.bow_centre,
          lifts.as_read,
          "strung",
          "slack",
          "these strings, with the rod as found,"};
}

std::string told(const StrungPair &pair)
{
  return std::string(pair.strung_words) + ", the bow was " + both_lengths(pair.strung) + ", " +
         pair.slack_words + " " + both_lengths(pair.slack) + ", and " + pair.movers +
         " should move this neck by " + both_lengths(pair.computed);
}

// What else than the wood makes a neck seem stiffer or softer than it is.
std::string other_causes(const cases::Case &c, double factor)
{
  if (factor < 1)
    return "A crack, a loose heel or scarf joint or an open glue line would make it so: look for "
           "them before any heat.";
  const bool rod_may_differ = !c.found.strung_bow_rod_slack &&
                              c.neck.rod.kind != cases::RodKind::none &&
                              c.neck.rod.kind != cases::RodKind::bonded_bar;
  return rod_may_differ
             ? "A rod that carried load in one of the readings would make it seem so: read it "
               "strung with the rod slack and tell it as strung_bow_rod_slack."
             : "Check the sizes and the strings in the case.";
}

const std::vector<std::string> &look_again()
{
  static const std::vector<std::string> ways = {"look for a loaded rod, a crack and a loose joint, "
                                                "read strung and slack once more, and check "
                                                "the sizes and the strings in the case"};
  return ways;
}

void judge_factor(const cases::Case &c, const StrungPair &pair, double factor,
                  const materials::WorkLimits &limits, Verdict &v)
{
  if (!(factor >= limits.stiffness_least && factor <= limits.stiffness_most))
    v.refuse(
        "Look again: " + told(pair) + ". Wood is between " + fixed(limits.stiffness_least, 1) +
            " and " + fixed(limits.stiffness_most, 1) +
            " times as stiff as the table says, and this neck would be " +
            (factor > 0 && std::isfinite(factor) ? fixed(factor, 2) + " times so"
                                                 : "moved the wrong way or not at all") +
            ": a rod still carries load, there is a crack or a loose joint, or a reading has gone "
            "wrong.",
        look_again());
  else if (std::abs(factor - 1) > limits.stiffness_doubt)
    v.caution("This neck is " + fixed(factor, 2) +
              " times as stiff as its sizes and woods tell; its stiffness is scaled by that. " +
              "As read: " + told(pair) + ". More than " + fixed(100 * limits.stiffness_doubt, 0) +
              " % off is unusual for wood. " + other_causes(c, factor));
}

// The rod's own part, where it was read apart from the strings'.
void judge_rod_part(const cases::Case &c, const Lifts &lifts, double factor,
                    const materials::WorkLimits &limits, Verdict &v)
{
  if (!c.found.bow_rod_loaded)
    return;
  const double read = *c.found.bow_rod_loaded - c.found.bow_centre;
  const double computed = (lifts.as_read - lifts.found) / factor;
  if (std::abs(read - computed) <=
      std::max(limits.least_lift, limits.stiffness_doubt * std::abs(computed)))
    return;
  const std::string moved =
      "The rod as found moved this neck by " + signed_length(read) + " (loaded minus slack), and ";
  const double force = c.neck.rod.force.value_or(0);
  if (std::abs(computed) < limits.least_lift)
    v.caution(moved + "the case says that it was slack then or pulls next to nothing: tell its "
                      "`state` and `force` under [rod] as they were.");
  else if (read / computed > 0)
    v.caution(moved + "its pull of " + cases::all_forces(force) + " should move it by " +
              signed_length(computed) + ": about " + cases::all_forces(force * read / computed) +
              " fits what was read.");
  else
    v.caution(moved + "its pull should move it by " + signed_length(computed) +
              ", the other way: check which way this rod bows the neck.");
}
} // namespace

bool tells_stiffness(const cases::Case &c)
{
  return c.found.strung_bow || c.found.strung_bow_rod_slack;
}

double fit_stiffness(const cases::Case &c, const Lifts &lifts)
{
  const StrungPair pair = strung_pair(c, lifts);
  return pair.computed / (pair.strung - pair.slack);
}

void judge_stiffness(const cases::Case &c, const Lifts &lifts, std::optional<double> factor,
                     Verdict &v)
{
  const materials::WorkLimits &limits = materials::tables().limits;
  if (tells_stiffness(c)) {
    const StrungPair pair = strung_pair(c, lifts);
    if (!(std::abs(pair.computed) > limits.least_lift)) {
      v.refuse("Strung minus slack tells nothing of this neck: strings and rod as found almost "
               "hold each other (together " +
                   both_lengths(pair.computed) + ").",
               {"read it once more strung with the rod slack (strung_bow_rod_slack), or leave "
                "strung_bow out"});
      return;
    }
    if (factor)
      judge_factor(c, pair, *factor, limits, v);
  }
  if (v.kind != Verdict::do_not)
    judge_rod_part(c, lifts, factor.value_or(1), limits, v);
}
} // namespace overbend::solver
