// SPDX-License-Identifier: GPL-3.0-or-later
// The plan phase by phase, what to expect, what might give.
#include "viz/report/report.h"

#include "viz/card/card.h"
#include "viz/page/html.h"
#include "viz/page/show.h"

namespace overbend::viz
{
namespace
{
std::string cell(const std::string &inner)
{
  return "<td>" + inner + "</td>";
}

std::string head(const std::string &caption, const std::vector<std::string> &columns)
{
  std::string out = "<div class=\"wide\" tabindex=\"0\" role=\"group\" aria-label=\"" +
                    escaped(caption) + "\">\n<table>\n<caption>" + words(caption) +
                    "</caption>\n<thead><tr>";
  for (const std::string &column : columns)
    out += "<th scope=\"col\">" + words(column) + "</th>";
  return out + "</tr></thead>\n<tbody>\n";
}

const char *const tail = "</tbody>\n</table>\n</div>\n";

std::string row(const std::string &name)
{
  return "<tr><th scope=\"row\">" + name + "</th>";
}

std::string clock_of(const PlanFile &plan, std::size_t i)
{
  return plan.number(plan.phase(i, "/start_after_release_s")) > 1
             ? shown(plan, plan.phase(i, "/start_after_release_s"), As::duration) + " after release"
             : shown(plan, plan.phase(i, "/start_on_clock_s"), As::clock);
}

std::string phases_table(const PlanFile &plan)
{
  std::string out = head("Phase by phase: readings at the start (after what is done at the bench) "
                         "and at the end; mm / thou",
                         {"begins", "phase", "bow bass", "bow centre", "bow treble", "twist",
                          "largest pull, bass and treble"});
  for (std::size_t i = 0; i < plan.n_phases(); ++i) {
    const auto both = [&](const char *key, As as) {
      return cell(shown(plan, plan.phase(i, std::string("/at_start/reading/") + key), as) + "<br>" +
                  shown(plan, plan.phase(i, std::string("/at_end/reading/") + key), as));
    };
    out += row(clock_of(plan, i)) + cell(shown(plan, plan.phase(i, "/name"), As::text)) +
           both("bow_bass_m", As::pair) + both("bow_centre_m", As::pair) +
           both("bow_treble_m", As::pair) + both("twist_rad", As::angle);
    out += plan.at(plan.phase(i, "/cords_on")).get<bool>()
               ? cell(shown(plan, plan.phase(i, "/largest_cords_N/bass"), As::force) + ", " +
                      shown(plan, plan.phase(i, "/largest_cords_N/treble"), As::force))
               : cell("off");
    out += "</tr>\n";
  }
  return out + tail;
}

std::string pulls_table(const PlanFile &plan)
{
  const bool by_buttons = plan.has("/cord_per_button_turn_m");
  std::string out = head("What to pull, as a guide; the readings decide",
                         {"phase", "take up", "then pulls", "cradle"});
  for (std::size_t i = 0; i < plan.n_phases(); ++i) {
    if (!plan.at(plan.phase(i, "/pulls_to_a_reading")).get<bool>())
      continue;
    const std::string start = plan.phase(i, "/at_start");
    std::string taken_up, forces;
    for (std::size_t k = 0; k < plan.size("/pulls"); ++k) {
      const std::string side = k == 0 ? "bass" : "treble", // keys of the plan, in order
          name = (k > 0 ? "<br>" : "") + shown(plan, "/pulls/" + std::to_string(k), As::text) + " ";
      const bool slack = plan.at(start + "/slack/" + side).get<bool>();
      taken_up +=
          name +
          (slack ? "slack"
                 : shown(plan, start + "/take_up_change_m/" + side, As::signed_both) +
                       (by_buttons ? ", " + shown(plan, start + "/turns_change/" + side, As::turns)
                                   : ""));
      forces += name + shown(plan, start + "/forces/cords_N/" + side, As::force);
    }
    out += row(shown(plan, plan.phase(i, "/name"), As::text)) + cell(taken_up) + cell(forces) +
           cell(shown(plan, start + "/forces/cradle_N", As::force)) + "</tr>\n";
  }
  return out + tail;
}
} // namespace

namespace
{
// "to 0.40 mm (16 thou) back-bow, twist none": what a phase is set to at its start.
std::string setting_at(const PlanFile &plan, std::size_t phase)
{
  const std::string reading = plan.phase(phase, "/at_start/reading");
  return "to " + shown(plan, reading + "/bow_centre_m", As::bow) + ", twist " +
         shown(plan, reading + "/twist_rad", As::twist);
}
} // namespace

namespace
{
// Set-ups and passes of a refusal, and where they ended. No orders.
std::string tried_table(const PlanFile &plan)
{
  std::string out = head("Simulated only; nothing of it is to be done. Bows on the centre line, "
                         "strung, after one pass",
                         {"set-up", "bow", "twist", "stopped by"});
  for (std::size_t i = 0; i < plan.size("/job/tried"); ++i) {
    const std::string at = "/job/tried/" + std::to_string(i);
    out += row(shown(plan, at + "/device", As::text)) +
           cell(shown(plan, at + "/strung/bow_centre_m", As::bow)) +
           cell(shown(plan, at + "/strung/twist_rad", As::angle)) +
           cell(shown(plan, at + "/limit", As::text)) + "</tr>\n";
  }
  out += tail + head("Passes: clamped at, and strung after it",
                     {"pass", "clamped at", "slow line", "middle line", "fast line"});
  for (std::size_t i = 0; i < plan.size("/job/passes"); ++i) {
    const std::string at = "/job/passes/" + std::to_string(i);
    const auto strung = [&](const char *speed) {
      return cell(shown(plan, at + "/strung/" + speed + "/bow_centre_m", As::bow));
    };
    out += row(shown(plan, at + "/pass", As::count)) +
           cell(shown(plan, at + "/overbend/bow_centre_m", As::bow)) + strung("slow") +
           strung("middle") + strung("fast") + "</tr>\n";
  }
  return out + tail;
}

std::string stop_temperatures(const PlanFile &plan)
{
  std::string out;
  if (plan.has("/stops/bar_never_above_K"))
    out += " Bar never above " + shown(plan, "/stops/bar_never_above_K", As::temperature) + " (" +
           shown(plan, "/stops/bar_never_above_because", As::text) + ")";
  if (plan.has("/stops/probe_never_above_K"))
    out += ", probe never above " + shown(plan, "/stops/probe_never_above_K", As::temperature);
  const std::string line = "/line_beside_probe_at_end_of_heat";
  if (plan.has(line))
    out += ". When the probe shows " + shown(plan, line + "/probe_K", As::temperature) +
           ", the line beside it has " + shown(plan, line + "/middle_K", As::temperature) +
           " in its middle and " + shown(plan, line + "/edges_K", As::temperature) +
           " at its edges; where it is hottest " +
           shown(plan, line + "/hottest_K", As::temperature);
  return out;
}

// "0:45", or for several passes "19:50 in pass 1, 20:05 in pass 2".
std::string releases(const PlanFile &plan)
{
  const std::size_t passes = plan.size("/clocks");
  std::string out;
  for (std::size_t k = 0; k < passes; ++k) {
    const std::string at = "/clocks/" + std::to_string(k);
    out += (k > 0 ? ", " : "") + shown(plan, at + "/release_on_clock_s", As::clock) +
           (passes > 1 ? " in pass " + shown(plan, at + "/pass", As::count) : "");
  }
  return out;
}
} // namespace

std::string report_plan(const PlanFile &plan)
{
  if (plan.refused())
    return tried_table(plan);
  const std::size_t cold = cold_phase(plan), decides = deciding_phase(plan);
  std::string out = "<p>";
  if (cold != decides)
    out += "Clamp it cold " + setting_at(plan, cold) + ", then hot ";
  else
    out += "Clamp it ";
  out +=
      setting_at(plan, decides) + ", at fret " + shown(plan, "/found/bow_fret", As::count) +
      " on the centre line" +
      (plan.at("/set_up/stop_block").get<bool>() ? "; the height of the stop block decides" : "") +
      ". Probe: " + shown(plan, "/set_up/probe/place", As::text) +
      ". Cradle: " + shown(plan, "/set_up/cradle/near", As::text) + ", pad " +
      shown(plan, "/set_up/cradle/width_m", As::length) + "." + stop_temperatures(plan) +
      ". Let go at " + releases(plan) +
      ", on the clock that starts with the heat of the pass.</p>\n";
  if (plan.has("/hot_reading"))
    out += "<p>Hot re-reading: " + shown(plan, "/hot_reading/run_on", As::text) + " " +
           shown(plan, "/hot_reading/tells", As::text) + "</p>\n";
  if (plan.has("/second_hot_reading"))
    out += "<p>Second hot reading: " + shown(plan, "/second_hot_reading/how", As::text) + "</p>\n" +
           second_reading_table(plan) + "<p>" + shown(plan, "/second_hot_reading/ends", As::text) +
           "</p>\n";
  return out + card_sketch(plan) + phases_table(plan) + pulls_table(plan);
}

namespace
{
// How far it goes in the months of play, with when.
std::string months_table(const PlanFile &plan)
{
  if (plan.size("/months_of_play") == 0)
    return "";
  std::string out =
      head("Lived with afterwards: how far the bow on the centre line and the twist go",
           {"phase", "what", "value", "month", "after release"});
  for (std::size_t i = 0; i < plan.size("/months_of_play"); ++i) {
    const std::string at = "/months_of_play/" + std::to_string(i);
    const auto line = [&](const char *name, const std::string &which, const char *key, As as) {
      const std::string here = at + "/" + which;
      return row(shown(plan, at + "/phase", As::text)) + cell(name) +
             cell(shown(plan, here + "/" + key, as)) +
             cell(shown(plan, here + "/month", As::text)) +
             cell(shown(plan, here + "/after_release_s", As::duration)) + "</tr>\n";
    };
    out += line("least bow", "least_bow", "bow_centre_m", As::signed_both) +
           line("most bow", "most_bow", "bow_centre_m", As::signed_both) +
           line("least twist", "least_twist", "twist_rad", As::angle) +
           line("most twist", "most_twist", "twist_rad", As::angle);
  }
  return out + tail;
}
} // namespace

std::string report_expected(const PlanFile &plan)
{
  std::string out = head("Readings to expect; bows on the centre line",
                         {"when", "after release", "bow", "at least", "at most", "twist"});
  for (std::size_t i = 0; i < plan.size("/expected"); ++i) {
    const std::string at = "/expected/" + std::to_string(i);
    out += row(shown(plan, at + "/name", As::text)) +
           cell(shown(plan, at + "/after_release_s", As::duration)) +
           cell(shown(plan, at + "/reading/bow_centre_m", As::signed_both)) +
           cell(shown(plan, at + "/low/bow_centre_m", As::signed_both)) +
           cell(shown(plan, at + "/high/bow_centre_m", As::signed_both)) +
           cell(shown(plan, at + "/reading/twist_rad", As::angle)) + "</tr>\n";
  }
  return out + tail + months_table(plan) + "<p>Band: ± " +
         shown(plan, "/tolerance/bow_m", As::length) + " and ± " +
         shown(plan, "/tolerance/twist_rad", As::angle_size) +
         ". Where it is from: " + shown(plan, "/tolerance/source", As::text) +
         ".</p>\n<p>More forward than that: a second pass, but no third. For each " +
         shown(plan, "/second_pass/guide_for_reading_m", As::length) + " too far forward about " +
         shown(plan, "/second_pass/guide_clamp_further_m", As::length) +
         " further past straight, as a guide; enter what you read as [first_pass] in the case and "
         "plan "
         "again. More back than that: leave it strung at pitch for " +
         fixed_words("48 h") + " and read again before anything else is done.</p>\n";
}

std::string report_strength(const PlanFile &plan)
{
  const std::string peaks = plan.in_main("/peaks");
  std::string out = head("Highest share of strength used, hot wood allowed for; all of it breaks",
                         {"part", "used", "how", "phase"});
  for (std::size_t i = 0; i < plan.size(peaks + "/use_of_strength"); ++i) {
    const std::string at = peaks + "/use_of_strength/" + std::to_string(i);
    out += row(shown(plan, at + "/region", As::text)) +
           cell(shown(plan, at + "/share_of_strength", As::percent)) +
           cell(shown(plan, at + "/mode", As::text)) + cell(shown(plan, at + "/phase", As::text)) +
           "</tr>\n";
  }
  out += tail;
  out += "<p>Hottest: glue line " + shown(plan, peaks + "/hottest_glue_K", As::temperature) +
         ", top of the board " + shown(plan, peaks + "/hottest_board_top_K", As::temperature) +
         ". One cord is allowed " + shown(plan, "/cord_limit_N", As::force) + ".</p>\n";
  if (plan.size(peaks + "/strengths_without_source") > 0)
    out += "<p>Not covered, because no source gives the strength:</p>\n" +
           shown_list(plan, peaks + "/strengths_without_source");
  return out;
}
} // namespace overbend::viz
