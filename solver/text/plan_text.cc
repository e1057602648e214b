// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/text/plan_text.h"

#include "cases/text/units.h"
#include "solver/text/plan_steps.h"
#include "solver/text/plan_text_parts.h"
#include "solver/words/shop_words.h"

#include <algorithm>
#include <cctype>
#include <cmath>
#include <sstream>

namespace overbend::solver
{
namespace text
{
void paragraph(std::ostringstream &out, const std::string &text)
{
  out << folded(text, "  ", "  ");
}

void list(std::ostringstream &out, const std::vector<std::string> &items)
{
  for (const std::string &item : items)
    out << folded(item, "  - ", "    ");
}

std::string padded(const std::string &text, std::size_t width)
{
  return text + std::string(text.size() < width ? width - text.size() : 1, ' ');
}
} // namespace text

namespace
{
using cases::both_lengths;
using namespace text;

std::string upper(std::string text)
{
  for (char &c : text)
    c = char(std::toupper(static_cast<unsigned char>(c)));
  return text;
}

void verdict(std::ostringstream &out, const PlanReport &report)
{
  const Verdict &v = report.verdict;
  out << "VERDICT: " << upper(in_words(v.kind)) << "\n";
  list(out, v.reasons);
  if (!v.alternatives.empty()) {
    out << "\n  Instead:\n";
    list(out, v.alternatives);
  }
  const std::vector<std::string> beside = v.shown_cautions();
  if (v.refused() && !beside.empty())
    out << "\n  Also know:\n";
  list(out, beside);
}

void computed(std::ostringstream &out, const PlanReport &report)
{
  const PlanColumn &p = report.main_column();
  out << "\nHOW IT WAS COMPUTED\n";
  paragraph(out, "Settings were looked for with the neck's answer to small changes and checked by "
                 "one simulation of the whole job: its last reading differs from what was looked "
                 "for by " +
                     both_lengths(std::abs(p.prediction_error_bow)) + " and " +
                     cases::degrees(std::abs(p.prediction_error_twist)) +
                     ". One mm (39 thou) more in the clamp moves the last reading by " +
                     both_lengths(1e-3 * p.sensitivity.bow_by_bow) + ", one degree by " +
                     fixed(p.sensitivity.twist_by_twist, 2) +
                     " degrees. The time scale of the glue line is the least certain number of "
                     "all: the hot re-reading and what it reads after release tell it.");
  for (const std::string &note : p.history.notes)
    paragraph(out, "Note: " + note + ".");
}
} // namespace

namespace
{
// What to do, and what it rests on.
void plan(std::ostringstream &out, const PlanReport &report)
{
  out << "\nIN SHORT\n";
  in_short(out, report);
  out << "\nWHAT TO DO\n" << steps_text(report, report.main_column());
  what_if(out, report);
  months_of_play(out, report);
  stage_tables(out, report);
  limits(out, report);
  computed(out, report);
}
} // namespace

namespace
{
void title(std::ostringstream &out, const cases::Case &c)
{
  out << "STRAIGHTENING PLAN: " << (c.title.empty() ? c.file : c.title) << "\n\n";
}

void what_is_wrong(std::ostringstream &out, const PlanReport &report)
{
  out << "\nWHAT IS WRONG WITH IT\n";
  found(out, report.the_case);
  if (!report.columns.empty()) {
    diagnosis(out, report);
    first_pass(out, report);
  }
  strings(out, report);
}

void cautions(std::ostringstream &out, const PlanReport &report)
{
  out << "\nCAUTIONS\n";
  list(out,
       report.verdict.refused() ? cautions_of_a_refusal() : standing_cautions(report.the_case));
}
} // namespace

std::string plan_in_short(const PlanReport &report)
{
  std::ostringstream out;
  title(out, report.the_case);
  verdict(out, report);
  if (report.verdict.refused() || report.columns.empty()) {
    what_is_wrong(out, report);
  } else {
    out << "\nIN SHORT\n";
    in_short(out, report);
  }
  cautions(out, report);
  return out.str();
}

std::string plan_text(const PlanReport &report)
{
  const bool refused = report.verdict.refused();
  std::ostringstream out;
  title(out, report.the_case);
  verdict(out, report);
  what_is_wrong(out, report);
  if (!report.columns.empty() && refused)
    tried(out, report);
  if (!report.columns.empty() && !refused)
    plan(out, report);
  cautions(out, report);
  return out.str();
}
} // namespace overbend::solver
