// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/report/plan_advice.h"

#include "cases/text/units.h"
#include "solver/readings/neck_angle.h"
#include "solver/verdict/verdict_need.h"

#include <algorithm>
#include <cmath>

// What is not known, and the cautions of a card.
namespace overbend::solver
{
namespace
{
using cases::both_lengths;

constexpr double share_in_doubt = 0.2; // of the bow, between slip and wood, cause not known [E]

// Closed form of complete slip: clamp reading moves by b rho / (1 - rho) for the wood's share.
Unknown split_of_the_bow(const Diagnosis &d)
{
  const double rho = d.bonded_share;
  const double change = share_in_doubt * std::abs(d.found.bow) * rho / std::max(0.05, 1 - rho);
  return {"How much of the bow is slip of the glue line and how much is in the wood: the cause is "
          "not known and the split is an estimate.",
          "A fifth of the bow more in the wood asks for about " + both_lengths(change) +
              " further past straight.",
          "Warm it free first: half an hour under the bar, no cords, no strings, then read again. "
          "What goes back by itself is slip."};
}
} // namespace

Unknown unknown_that_matters_most(const PlanReport &report)
{
  const cases::Case &c = report.the_case;
  if (!c.board_glue.kind) {
    const std::string effect =
        "Slow and fast lines end up to " + both_lengths(2 * tolerance(report).bow) + " apart.";
    return {"Which glue holds the board.", effect,
            "Warm it free first, and watch the hot re-reading: a line that has hardly moved is "
            "slow, one that has run on is fast."};
  }
  const bool split_matters = !report.columns.empty() && c.warp.cause == cases::Cause::unknown;
  if (split_matters)
    return split_of_the_bow(report.main_column().diagnosis);
  const bool block = std::any_of(c.phases.begin(), c.phases.end(),
                                 [](const cases::Phase &phase) { return phase.block; });
  if (block)
    return {"How fast this glue line gives at its temperature: the least certain number of all.",
            "A slower one keeps less; the block keeps a faster one from running on.",
            "Warm it free first: half an hour under the bar, no cords, no strings, then read "
            "again."};
  return {"How fast this glue line gives at its temperature: the least certain number of all.",
          "A faster line runs on further in the clamp, a slower one keeps less.",
          "The hot re-reading tells: go back to the readings asked for, and note how far it had "
          "run."};
}

std::vector<std::string> card_cautions(const cases::Case &c)
{
  std::vector<std::string> all = {
      "Iron: dry, dabbed on 2 to 3 s every minute or two, or parked on 6 mm (1/4 in) plywood. "
      "Never left "
      "alone.",
      "Glasses on. Stay out of the line of the cords. Extinguisher and metal tray at hand."};
  using cases::Binding;
  using cases::Finish;
  if (c.finish == Finish::nitro_lacquer || c.finish == Finish::shellac)
    all.push_back(
        "This finish burns and prints: suede or cork under it, no solvent or oily rag near.");
  else if (c.finish == Finish::unknown)
    all.push_back("Finish not known: treat it as lacquer that burns and prints under pads.");
  else if (c.finish != Finish::bare && c.finish != Finish::oil)
    all.push_back(
        "Finish: soft pad under the cradle, no vinyl or rubber; look under it at the re-reading.");
  if (c.binding == Binding::unknown)
    all.push_back(
        "Binding not known: camphor smell when rubbed means celluloid. Then no heat at all.");
  else if (c.binding == Binding::plastic)
    all.push_back("Plastic binding: foil and felt over it, the bar off it.");
  if (!frets_in_words(c).empty())
    all.push_back("Frets not level: the readings here are on them as they are. Level or seat them "
                  "first if you can.");
  if (const auto angle = neck_angle(c, materials::tables().limits); angle && angle->wrong)
    all.push_back("Neck angle " + side_in_words(*angle) +
                  ": it stays after this job; a reset is another.");
  if (!c.board_glue.kind)
    all.push_back("Glue not known: warm it free first, and trust the re-reading, not the clock.");
  else if (c.neck.headstock.kind == cases::HeadstockKind::scarf)
    all.push_back("Scarf joint: keep heat and load off it as far as you can.");
  if (c.neck.headstock.kind == cases::HeadstockKind::tilted)
    all.push_back(
        "Headstock of one piece has short grain at the nut: look at it with a lamp first.");
  return all;
}
} // namespace overbend::solver
