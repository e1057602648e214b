// SPDX-License-Identifier: GPL-3.0-or-later
// Verdict, findings, meaning, cautions, customer's paragraph, record.
#include "viz/report/report.h"

#include "viz/card/card.h"
#include "viz/page/html.h"
#include "viz/page/show.h"

#include <cmath>

namespace overbend::viz
{
namespace
{
std::string list_under(const PlanFile &plan, const std::string &heading, const std::string &pointer)
{
  if (plan.size(pointer) == 0)
    return "";
  return "<h3>" + heading + "</h3>\n" + shown_list(plan, pointer);
}

std::string item(const std::string &name, const std::string &value)
{
  return "<tr><th scope=\"row\">" + name + "</th><td>" + value + "</td></tr>\n";
}

std::string table(const std::string &rows)
{
  return "<table class=\"facts\">\n<tbody>\n" + rows + "</tbody>\n</table>\n";
}

// Expected reading of an occasion, as a pointer; empty if there is none.
std::string expected_at(const PlanFile &plan, const std::string &occasion)
{
  for (std::size_t i = 0; i < plan.size("/expected"); ++i)
    if (plan.text("/expected/" + std::to_string(i) + "/occasion") == occasion)
      return "/expected/" + std::to_string(i);
  return "";
}

const char *const after_care =
    "Never leave it in a hot car, an attic, on a sunny stage or near a heater, not even in its "
    "case: "
    "that is how necks get their bow, and it can come back within an afternoon. If it has to stand "
    "hot, slacken the strings. Do not put on heavier strings without asking. Come back in four to "
    "six weeks for a second look, and at once if the action changes.";
} // namespace

namespace
{
// What the job comes to, in a few figures.
std::string in_figures(const PlanFile &plan)
{
  const std::size_t hot = deciding_phase(plan);
  if (plan.refused() || !plan.simulated() || hot == plan.n_phases())
    return "";
  std::string rows =
      item("set it hot to",
           shown(plan, plan.phase(hot, "/at_start/reading/bow_centre_m"), As::bow)) +
      item("heat off", shown(plan, "/job/heat/hold_s", As::duration) + " after the hot reading");
  for (const char *occasion : {"released", "at_date"})
    if (const std::string at = expected_at(plan, occasion); !at.empty())
      rows += item(shown(plan, at + "/name", As::text),
                   shown(plan, at + "/reading/bow_centre_m", As::bow) + " (" +
                       shown(plan, at + "/high/bow_centre_m", As::signed_both) + " to " +
                       shown(plan, at + "/low/bow_centre_m", As::signed_both) + "), twist " +
                       shown(plan, at + "/reading/twist_rad", As::twist));
  return table(rows);
}
} // namespace

std::string report_verdict(const PlanFile &plan)
{
  return "<p class=\"verdict\">" + shown(plan, "/verdict/kind", As::text) + "</p>\n" +
         in_figures(plan) + list_under(plan, "Why not", "/verdict/reasons") +
         list_under(plan, "Instead", "/verdict/alternatives") +
         list_under(plan, "Look out for", "/verdict/cautions");
}

namespace
{
std::string uneven_frets(const PlanFile &plan)
{
  if (plan.size("/found/fret_heights") == 0)
    return "";
  std::string out = table_start("Frets against the level ones",
                                {"fret", "at the bass edge", "at the treble edge"});
  for (std::size_t i = 0; i < plan.size("/found/fret_heights"); ++i) {
    const std::string at = "/found/fret_heights/" + std::to_string(i);
    out += "<tr><th scope=\"row\">" + shown(plan, at + "/fret", As::count) + "</th><td>" +
           shown(plan, at + "/bass_m", As::signed_both) + "</td><td>" +
           shown(plan, at + "/treble_m", As::signed_both) + "</td></tr>\n";
  }
  out += table_end;
  if (plan.has("/found/frets_in_words"))
    out += "<p>Of what the edge reads: " + shown(plan, "/found/frets_in_words", As::text) +
           ". Level or seat them; all readings of this report are on the frets as they are.</p>\n";
  return out;
}

std::string over_bridge(const PlanFile &plan)
{
  return plan.has("/found/over_bridge")
             ? "<p>Neck angle: " + shown(plan, "/found/over_bridge/in_words", As::text) + "</p>\n"
             : "";
}
} // namespace

std::string report_found(const PlanFile &plan)
{
  std::string rows = item("bow, bass", shown(plan, "/found/bow_bass_m", As::bow)) +
                     item("bow, centre", shown(plan, "/found/bow_centre_m", As::bow)) +
                     item("bow, treble", shown(plan, "/found/bow_treble_m", As::bow));
  if (plan.at("/found/twist_rad").is_number())
    rows += item("twist", shown(plan, "/found/twist_rad", As::twist) + "; at " +
                              fixed_words("300 mm (12 in)") + " sticks " +
                              shown(plan, "/found/twist_rad", As::sticks));
  else
    rows += item("twist", "not measured, taken as none");
  if (plan.at("/found/strung_bow_m").is_number())
    rows += item("bow, centre, strung", shown(plan, "/found/strung_bow_m", As::bow));
  const std::string made = "<p>" + shown(plan, "/instrument/preset", As::text) + ", scale " +
                           shown(plan, "/instrument/scale_length_m", As::length) + ", " +
                           shown(plan, "/instrument/shaft_wood", As::text) + " with a board of " +
                           shown(plan, "/instrument/board_wood", As::text) + " on " +
                           shown(plan, "/instrument/board_glue", As::text) + " glue, headstock " +
                           shown(plan, "/instrument/headstock", As::text) + ", rod " +
                           shown(plan, "/instrument/rod", As::text) + ", finish " +
                           shown(plan, "/instrument/finish", As::text) + ", binding " +
                           shown(plan, "/instrument/binding", As::text) + ".</p>\n";
  return made + "<p>Strings off, " + shown(plan, "/found/edge", As::text) + ", over " +
         shown(plan, "/found/rests", As::text) + ", read at fret " +
         shown(plan, "/found/bow_fret", As::count) + ":</p>\n" + table(rows) + uneven_frets(plan) +
         over_bridge(plan);
}

std::string report_meaning(const PlanFile &plan)
{
  const std::string d = plan.in_main("/diagnosis");
  std::string rows =
      item("slip of the board's glue line (comes back easily and stays)",
           shown(plan, d + "/slip_bow_m", As::bow)) +
      item("in the wood (comes back hard and relapses)",
           shown(plan, d + "/wood_bow_m", As::bow) + ", " +
               shown(plan, d + "/wood_share", As::percent) + " of the bow") +
      item("most that heat and these strings could have done",
           shown(plan, d + "/ceiling_of_heat_and_strings_m", As::length)) +
      item("twist taken as slip", shown(plan, d + "/slip_twist_rad", As::angle)) +
      item("twist taken as in the wood", shown(plan, d + "/wood_twist_rad", As::angle)) +
      item("neither heat nor strings explain this, taken as built in",
           shown(plan, d + "/as_built/bow_centre_m", As::signed_both) + ", twist " +
               shown(plan, d + "/as_built/twist_rad", As::angle)) +
      item("of a clamped bow, springs back even if the line slips freely",
           shown(plan, d + "/bonded_share_of_bow", As::percent));
  if (plan.has("/strings"))
    rows +=
        item("lift by the strings to come, " + shown(plan, "/instrument/strings_to_come", As::text),
             shown(plan, "/strings/lift_planned_m", As::length) + " at " +
                 shown(plan, "/strings/tension_planned_N", As::force));
  return table(rows) + shown_list(plan, d + "/remarks") +
         "<p><strong>What matters most and is not known:</strong> " +
         shown(plan, "/unknown_that_matters_most/what", As::text) + " " +
         shown(plan, "/unknown_that_matters_most/effect", As::text) + " " +
         shown(plan, "/unknown_that_matters_most/how_to_tell", As::text) + "</p>\n";
}

namespace
{
// What the owner is told of a plan that is not to be done, by the word of its verdict.
std::string refused_in_short(const std::string &verdict)
{
  if (verdict == "nothing_to_do")
    return "We looked into pressing it straight with gentle heat: it does not need it.";
  if (verdict == "condition_first")
    return "Before anything is done with heat it has to come to rest in our air and be read again.";
  return "We looked into pressing it straight with gentle heat and advise against it.";
}
} // namespace

std::string report_customer(const PlanFile &plan)
{
  const std::string before = "<p>Your instrument came in with a neck that was not straight: read "
                             "without strings, it dipped by " +
                             shown(plan, "/found/bow_centre_m", As::size) + " in the middle. ";
  if (plan.refused())
    return before + refused_in_short(plan.text("/verdict/word")) +
           " The reasons are at the top of this report, with what we can offer instead. " +
           words(after_care) + "</p>\n";
  const std::string strung = expected_at(plan, "at_date");
  std::string after = "We plan to clamp it slightly past straight, warm it gently for some hours, "
                      "and let it cool in the clamp overnight. ";
  if (!strung.empty())
    after += "Strung and rested it should then read about " +
             shown(plan, strung + "/reading/bow_centre_m", As::size) + ", give or take " +
             shown(plan, "/tolerance/bow_m", As::size) + "; about " +
             shown(plan, "/target/relief_m", As::size) + " is wanted for playing. ";
  return before + after +
         "Wood and glue have a memory, and nobody can promise that a neck stays: some of the bow "
         "may "
         "return in the first weeks, and a second, smaller correction may be needed. " +
         words(after_care) + "</p>\n";
}

std::string report_cautions(const PlanFile &plan)
{
  return shown_list(plan, "/standing_cautions") + "<p>For this instrument:</p>\n" +
         shown_list(plan, "/card_cautions");
}

std::string report_record(const PlanFile &plan)
{
  std::string rows, case_text;
  for (const auto &[name, value] : plan.at("/record").items()) {
    // The keys of a JSON pointer write / as ~1 and ~ as ~0.
    std::string key;
    for (const char c : name)
      key += c == '~' ? "~0" : c == '/' ? "~1" : std::string(1, c);
    const std::string text = shown(plan, "/record/" + key, As::verbatim);
    if (name == "case text")
      case_text = text;
    else
      rows += item("<span data-fixed>" + escaped(name) + "</span>", text);
  }
  return "<details>\n<summary>Program, machine, tables and the case</summary>\n" + table(rows) +
         "<h3>The case</h3>\n<pre tabindex=\"0\">" + case_text + "</pre>\n</details>\n";
}
} // namespace overbend::viz
