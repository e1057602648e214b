// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/report/plan_stages.h"
#include "solver/text/plan_text_parts.h"
#include "solver/words/shop_words.h"

#include "cases/text/units.h"

#include <algorithm>
#include <cmath>
#include <set>

namespace overbend::solver::text
{
namespace
{
using Stages = std::vector<PlanStage>;

constexpr double thou = 25.4e-6;
constexpr std::size_t edge_width = 24;

// Stages stand by their numbers in the tables: their names would make them too wide.
constexpr std::size_t number_width = 4;

std::string number_of(std::size_t i)
{
  return padded(std::to_string(i + 1), number_width);
}

void names(std::ostringstream &out, const Stages &stages)
{
  paragraph(out, "The stages, by the numbers that they have in the tables:");
  for (std::size_t i = 0; i < stages.size(); ++i)
    out << "    " << number_of(i) << stages[i].name << "\n";
  out << "\n";
}

// Bare millimetres and thou for a table whose head tells the units; the sign where it says
// something.
std::string pair(double metres, bool sign)
{
  const auto one = [sign](double value, int decimals) {
    const std::string text = fixed(value, decimals);
    const bool zero = text.find_first_not_of("0.") == std::string::npos;
    return sign && text.front() != '-' && !zero ? "+" + text : text;
  };
  return one(metres * 1e3, 2) + " / " + one(metres / thou, std::abs(metres / thou) < 10 ? 1 : 0);
}

std::string edge(const LineReadings &line)
{
  const EdgeOnLine &e = line.edge;
  if (e.rocks)
    return "rocks " + pair(e.end_gap, false) + " on " + std::to_string(e.hump_fret);
  if (e.deepest_gap < least_end_gap)
    return "lies flat";
  return "gap " + pair(e.deepest_gap, false) + " at " + std::to_string(e.deepest_gap_fret);
}

void edges(std::ostringstream &out, const cases::Case &c, const Stages &stages)
{
  const bool level = c.readings.fret_heights.empty();
  const std::string lies = c.readings.edge_on == cases::EdgeOn::wood ? ""
                           : level                                   ? ", the frets level"
                                                                     : ", the frets as they are";
  paragraph(out, capital(edge_in_words(c)) + " from fret " + std::to_string(c.found.rest_fret_a) +
                     " to fret " + std::to_string(c.found.rest_fret_b) + lies +
                     ", mm / thou. It rests on two high points and shows its "
                     "deepest gap at a fret; or it rocks on a fret and, balanced, shows this gap "
                     "at each end:");
  out << "  " << padded("", number_width) << padded("bass", edge_width)
      << padded("centre", edge_width) << "treble\n";
  for (std::size_t i = 0; i < stages.size(); ++i) {
    const auto &line = stages[i].readings.line;
    out << "  " << number_of(i) << padded(edge(line[0]), edge_width)
        << padded(edge(line[1]), edge_width) << edge(line[2]) << "\n";
  }
}

// A string can only be held down where there is one.
std::string relief(const PlanStage &stage, unsigned line)
{
  const LineReadings &l = stage.readings.line[line];
  return stage.strings ? pair(l.relief, false) + " at " + std::to_string(l.relief_fret) : "-";
}

void sticks(std::ostringstream &out, const cases::Case &c, const Stages &stages)
{
  const std::string rests =
      std::to_string(c.found.rest_fret_a) + " and " + std::to_string(c.found.rest_fret_b);
  out << "\n";
  paragraph(out, "Winding sticks of 300 mm (12 in) on " + rests_in_words(c) +
                     " (+: treble corner of the nut up), and the gap under the outer strings held "
                     "down at frets " +
                     rests + ", mm / thou:");
  out << "  " << padded("", number_width) << padded("sticks", 30) << padded("string bass", 20)
      << "string treble\n";
  for (std::size_t i = 0; i < stages.size(); ++i) {
    const PlanStage &s = stages[i];
    out << "  " << number_of(i)
        << padded(pair(s.readings.over_sticks, true) + " (" + cases::degrees(s.readings.twist) +
                      ")",
                  30)
        << padded(relief(s, 0), 20) << relief(s, 2) << "\n";
  }
}

void glue_lines(std::ostringstream &out, const Stages &stages)
{
  out << "\n";
  paragraph(out,
            "Glue lines: slip of the upper against the lower side at the nut end and at the body "
            "end, mm / thou, + towards the body; mean shear over the last 10 mm (0.39 in) there, "
            "MPa, + with the "
            "upper side drawn towards the body:");
  for (const LineState &kind : stages.front().state->line) {
    out << "  " << kind.name << " line\n  " << padded("", number_width)
        << padded("slip nut end", 17) << padded("slip body end", 17)
        << "shear nut end / body end\n";
    for (std::size_t i = 0; i < stages.size(); ++i)
      for (const LineState &line : stages[i].state->line)
        if (line.name == kind.name)
          out << "  " << number_of(i) << padded(pair(line.ends.slip_nut_end, true), 17)
              << padded(pair(line.ends.slip_body_end, true), 17)
              << fixed(line.ends.shear_nut_end / 1e6, 3) << " / "
              << fixed(line.ends.shear_body_end / 1e6, 3) << "\n";
  }
}

void strength_rows(std::ostringstream &out, const Stages &stages, const std::set<Region> &regions,
                   std::size_t first, std::size_t last)
{
  constexpr std::size_t name_width = 22, share_width = 5;
  out << "  " << padded("", name_width);
  for (std::size_t i = first; i < last; ++i)
    out << (i + 1 < last ? padded(std::to_string(i + 1), share_width) : std::to_string(i + 1));
  out << "\n";
  for (const Region region : regions) {
    out << "  " << padded(name(region), name_width);
    for (std::size_t i = first; i < last; ++i) {
      const RegionUse &of_stage = stages[i].state->use;
      const auto use = of_stage.find(region);
      const double share = use == of_stage.end() ? 0. : 100 * use->second.value;
      const std::string number = fixed(share, share < 9.95 ? 1 : 0);
      out << (i + 1 < last ? padded(number, share_width) : number);
    }
    out << "\n";
  }
}

void strength(std::ostringstream &out, const Stages &stages)
{
  std::set<Region> regions;
  for (const PlanStage &stage : stages)
    for (const auto &[region, use] : stage.state->use)
      regions.insert(region);
  out << "\n";
  paragraph(out, "Share of strength in use, at its temperature then, % (100 breaks), at the stages "
                 "numbered above:");
  // As many stages beside each other as 80 columns hold.
  constexpr std::size_t at_once = 11;
  for (std::size_t first = 0; first < stages.size(); first += at_once)
    strength_rows(out, stages, regions, first, std::min(stages.size(), first + at_once));
}

bool have_states(const Stages &stages)
{
  return std::all_of(stages.begin(), stages.end(),
                     [](const PlanStage &s) { return s.state != nullptr; });
}
} // namespace

void stage_tables(std::ostringstream &out, const PlanReport &report)
{
  const Stages stages = plan_stages(report);
  if (stages.empty())
    return;
  out << "\nSTAGE BY STAGE\n";
  names(out, stages);
  edges(out, report.the_case, stages);
  sticks(out, report.the_case, stages);
  if (!have_states(stages))
    return;
  glue_lines(out, stages);
  strength(out, stages);
}
} // namespace overbend::solver::text
