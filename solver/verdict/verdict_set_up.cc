// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/text/units.h"
#include "solver/verdict/verdict.h"

#include <algorithm>

namespace overbend::solver
{
namespace
{
using cases::all_forces;
using cases::both_lengths;

// A jammed rod is a spring against the clamp (trade 2.6 [T]).
void seized_rod_cautions(const cases::Rod &rod, std::vector<std::string> &all)
{
  all.push_back(
      "The rod is seized: it does not slacken, and from the shape as found on it is a spring "
      "against everything done to the neck, in every phase. The plan counts it in. Do not force "
      "its nut while the neck is clamped or warm (glasses on): if it lets go, the neck jumps by "
      "what it held.");
  if (!rod.force)
    all.push_back(
        "The pull of the seized rod is not known and is taken as none in the neck as found. If it "
        "does pull, a part of the bow that was read is the rod's, and it draws the neck on while "
        "the line is soft: plan once more with 1000 N (102 kgf, 225 lbf) and see what changes.");
}

// To tighten a rod that is at its stop is among what is never done (trade 4.6), and it is slackened
// before the clamp: the neck may jump forward by its whole contribution (trade 3.3 [E]). The washer
// is common practice, no source.
void rod_at_its_stop_cautions(const cases::Case &c, std::vector<std::string> &all)
{
  all.push_back("The rod is at its stop: slacken it all the way before the clamp (glasses on; the "
                "neck may jump forward by all that the rod held, " +
                both_lengths(0.3e-3) + " to " + both_lengths(0.8e-3) +
                " on a guitar), and never turn it tighter.");
  if (c.target.rod == cases::RodState::set)
    all.push_back("There is no room left in the rod: set to " +
                  all_forces(c.neck.rod.force.value_or(0)) +
                  " it is at its stop again. Do not leave any of the correction to it; a washer "
                  "under its nut gives travel back.");
  else
    all.push_back("None of the correction is left to the rod: it ends slack. A washer under its "
                  "nut gives travel back.");
}
} // namespace

std::vector<std::string> set_up_cautions(const cases::Case &c)
{
  std::vector<std::string> all;
  if (c.neck.rod.state == cases::RodState::seized)
    seized_rod_cautions(c.neck.rod, all);
  if (c.neck.rod.state == cases::RodState::at_its_stop)
    rod_at_its_stop_cautions(c, all);
  if (std::any_of(c.phases.begin(), c.phases.end(), [](const cases::Phase &p) { return p.block; }))
    all.push_back("One stop block under the middle of the headstock sets the bow and not the "
                  "twist: the twist hangs on the difference of the two cords and runs on with them "
                  "while the line is soft. Look at the sticks when it is hot.");
  return all;
}
} // namespace overbend::solver
