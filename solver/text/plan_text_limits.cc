// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/text/plan_text_parts.h"

#include "cases/text/units.h"
#include "materials/tables.h"
#include "solver/bench/pull_limits.h"
#include "solver/words/places.h"
#include "solver/words/pull_names.h"
#include "solver/words/shop_words.h"

#include <algorithm>

namespace overbend::solver::text
{
namespace
{
using cases::all_forces;
using cases::both_lengths;
using cases::both_temperatures;

// How far the line has dried, where that hardens it by more than a degree.
std::string dried_line(const LineWarmth &line)
{
  const double harder = line.softens_driest - line.softens_before;
  if (harder < 1)
    return "";
  return "The heat dries the glue line from " + fixed(100 * line.humidity_before, 0) +
         " % humidity to " + fixed(100 * line.humidity, 0) + " % on average and " +
         fixed(100 * line.driest, 0) + " % at its driest edge, where it softens " +
         cases::both_temperature_differences(harder) +
         " higher and slides more slowly. Board edges and ends that are covered while hot stay "
         "damp.";
}
// Slip that stays in each glue line.
void slips(std::ostringstream &out, const BenchState &end)
{
  std::string text =
      "Slip that stays in the end, upper against lower side (+ is towards the body): ";
  for (const auto &[name, ends] : end.line)
    text += (&name == &end.line.front().name ? "" : "; ") + name + " line " +
            signed_length(ends.slip_nut_end) + " at the nut end, " +
            signed_length(ends.slip_body_end) + " at the body end";
  paragraph(out, text + ".");
}

// Share of strength by region; of a glue line also the shear that makes it.
void most_used(std::ostringstream &out, const PlanReport &report)
{
  paragraph(out, "Share of strength used at most, at its temperature and for as long as it is held "
                 "(100 % breaks; shear over 10 mm (0.39 in)):");
  for (const auto &[place, peak] : report.main_column().peaks.use) {
    if (!(peak.value > 0))
      continue; // no strength to hold it against: told below
    const std::string shear =
        peak.shear > 0 ? padded(fixed(peak.shear / 1e6, 2) + " MPa", 10) : padded("", 10);
    out << "    " << padded(name(place), 22)
        << padded(fixed(100 * peak.value, peak.value < 0.1 ? 1 : 0) + " %", 8) << shear << peak.mode
        << "\n";
    out << folded(near_fret(report.the_case, peak.place[0]) + ", phase \"" +
                      report.the_case.phases.at(peak.phase).name + "\"",
                  std::string(8, ' '), std::string(8, ' '));
  }
}

double largest_pull(const PlanColumn &p, std::size_t which)
{
  double largest = 0;
  for (const PhaseEnd &phase : p.history.phases)
    largest = std::max(largest, phase.largest_cord[which]);
  return largest;
}
} // namespace

void limits(std::ostringstream &out, const PlanReport &report)
{
  const PlanColumn &p = report.main_column();
  const Peaks &peaks = p.peaks;
  out << "\nWHAT MIGHT GIVE\n";
  const auto bears = pull_limits(report.the_case, materials::tables());
  const auto names = pull_names(report.the_case);
  for (std::size_t k = 0; k < names.size(); ++k)
    paragraph(out, "Hardest pull, " + names[k] + ": " + all_forces(largest_pull(p, k)) + " of " +
                       all_forces(bears[k].refuse) + " allowed (" + bound_in_words(bears[k].bound) +
                       ").");
  paragraph(out, "Hottest: glue line " + both_temperatures(peaks.hottest_glue) +
                     ", top of the board " + both_temperatures(peaks.hottest_board_top) + ".");
  if (report.line)
    paragraph(out, "Board's glue line at the end of the heat: nut end " +
                       both_temperatures(report.line->nut_end) + ", middle " +
                       both_temperatures(report.line->middle) + ", body end " +
                       both_temperatures(report.line->body_end) + ".");
  if (report.line && !dried_line(*report.line).empty())
    paragraph(out, dried_line(*report.line));
  if (!report.bench.empty() && !report.bench[report.main_number()].states.empty())
    slips(out, report.bench[report.main_number()].states.back());
  most_used(out, report);
  if (!peaks.missing.empty()) {
    std::string text = "Not covered, because no source gives the strength: ";
    for (const std::string &name : peaks.missing)
      text += (&name == &peaks.missing.front() ? "" : "; ") + name;
    paragraph(out, text + ".");
  }
}
} // namespace overbend::solver::text
