// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/text/plan_text_parts.h"

#include "cases/case/fret_heights.h"
#include "cases/text/units.h"
#include "solver/readings/neck_angle.h"
#include "solver/verdict/verdict_need.h"
#include "solver/words/shop_words.h"

#include <algorithm>
#include <cmath>

namespace overbend::solver::text
{
namespace
{
using cases::all_forces;
using cases::both_lengths;

// What is not worth saying, m and rad.
constexpr double least_bow = 5e-6, least_twist = 5e-4;

// Frets that are not level, and what they make of the reading.
void frets_found(std::ostringstream &out, const cases::Case &c)
{
  if (c.readings.fret_heights.empty())
    return;
  std::string text =
      "Frets against the level ones: " + cases::fret_heights_in_words(c.readings.fret_heights) +
      ". ";
  if (c.readings.edge_on == cases::EdgeOn::wood)
    text += "Read on the wood, they are in none of these figures.";
  else if (frets_matter(c))
    text += "An edge on the frets rests on them as they are: " + frets_in_words(c) +
            ". Level or seat them. All readings below are on the frets as they are.";
  else
    text += "In the readings at the fret read they make no difference that counts; gaps fret by "
            "fret see them.";
  paragraph(out, text);
}
} // namespace

void found(std::ostringstream &out, const cases::Case &c)
{
  const cases::Found &f = c.found;
  std::string text = "Found, strings off, " + edge_in_words(c) + " from fret " +
                     std::to_string(f.rest_fret_a) + " to fret " + std::to_string(f.rest_fret_b) +
                     ", read at fret " + std::to_string(f.bow_fret) + ": bass " +
                     bow_in_words(f.bow_bass) + ", centre " + bow_in_words(f.bow_centre) +
                     ", treble " + bow_in_words(f.bow_treble) + "; twist ";
  if (f.twist) {
    text += twist_in_words(*f.twist);
    if (std::abs(*f.twist) > least_twist)
      text += " (" + both_lengths(std::abs(over_sticks(*f.twist))) +
              " at the tips of 300 mm (12 in) sticks)";
  } else
    text += "not measured, taken as none";
  paragraph(out, text + ".");
  frets_found(out, c);
  const auto angle = neck_angle(c, materials::tables().limits);
  if (angle)
    paragraph(out, "Neck angle: " + in_words(*angle) +
                       (angle->out != 0 ? " The angle is " + side_in_words(*angle) +
                                              ", and straightening leaves it."
                        : angle->read_is_out ? " It is the bow that makes it read wrong."
                                             : ""));
}

void diagnosis(std::ostringstream &out, const PlanReport &report)
{
  const Diagnosis &d = report.main_column().diagnosis;
  const auto part = [](double bow) {
    return std::abs(bow) < least_bow ? "none" : bow_in_words(bow);
  };
  paragraph(out, "Of the bow, " + part(d.slip_bow) +
                     " is slip of the board's glue line (easily corrected, and it stays so) and " +
                     part(d.wood_bow) +
                     " is in the wood (hard to correct, and it comes back in part): " +
                     fixed(100 * d.wood_share_of_found(), 0) + " % of what was found.");
  if (d.found.bow > 0 && d.found.bow <= d.ceiling)
    paragraph(out, "Heat and these strings alone can explain all of it: up to " +
                       both_lengths(d.ceiling) + ".");
  else
    paragraph(out, "Heat and these strings alone explain at most " + both_lengths(d.ceiling) +
                       " of the " + both_lengths(std::abs(d.found.bow)) +
                       ". What is beyond it is in the wood, or the neck was built so.");
  if (std::abs(d.slip_twist) + std::abs(d.wood_twist) > least_twist)
    paragraph(out, "Of the twist, " + cases::degrees(std::abs(d.slip_twist)) +
                       " is taken as slip and " + cases::degrees(std::abs(d.wood_twist)) +
                       " as in the wood. Strings and even heat make no twist: its cause is open.");
  const Reading &a = d.as_built;
  if (std::max({std::abs(a.bow_bass), std::abs(a.bow), std::abs(a.bow_treble)}) > least_bow ||
      std::abs(a.twist) > least_twist)
    paragraph(out, "Neither heat nor strings explain this, and it is taken as built in: bass " +
                       signed_length(a.bow_bass) + ", centre " + signed_length(a.bow) +
                       ", treble " + signed_length(a.bow_treble) + ", twist " +
                       twist_in_words(a.twist) + ". It is added to every reading below.");
  const auto percent = [](double share) { return fixed(100 * share, 0) + " %"; };
  paragraph(out, "Of what the clamp bends, a line that slips freely would keep " +
                     percent(1 - d.bonded_share) + " of the bow and " +
                     percent(1 - d.bonded_twist_share) + " of the twist. This one keeps " +
                     percent(report.main_column().sensitivity.bow_by_bow) + " of the bow.");
  for (const std::string &remark : d.remarks)
    paragraph(out, remark);
}

void strings(std::ostringstream &out, const PlanReport &report)
{
  if (!report.lifts)
    return;
  paragraph(out, "Strings (" + report.the_case.strings.set + ", " +
                     all_forces(report.planned_tension) + ") lift this neck forward by " +
                     both_lengths(report.lifts->planned) + ".");
  if (report.stiffness_factor && *report.stiffness_factor > 0)
    paragraph(out, "Strung minus slack says that the neck is " +
                       fixed(*report.stiffness_factor, 2) +
                       " times as stiff as its sizes and woods tell" +
                       (report.columns.empty() ? "." : "; the plan uses that."));
}
} // namespace overbend::solver::text
