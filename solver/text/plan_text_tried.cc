// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/text/plan_text_parts.h"

#include "cases/text/units.h"
#include "solver/words/device_names.h"
#include "solver/words/shop_words.h"

#include <stdexcept>

namespace overbend::solver::text
{
namespace
{
using cases::both_temperatures;

// What a set-up was stopped by; empty where nothing did.
std::string stopped_by(Limit limit, const std::optional<Region> &place)
{
  switch (limit) {
  case Limit::none:
    return "";
  case Limit::cord_pull:
    return "the pull of a cord";
  case Limit::tuner_pull:
    return "the pull on a tuner's post";
  case Limit::strength:
    return "the strength of the " + std::string(place ? name(*place) : "neck");
  case Limit::overbend:
    return "how far a neck may be clamped past straight";
  case Limit::twist_out_of_reach:
    return "a twist out of its reach";
  case Limit::line_does_not_move:
    return "a glue line that does not move";
  case Limit::fast_line:
    return "a fast line, which would end back-bowed";
  }
  throw std::logic_error("a limit without words");
}

std::string set_up(const TriedSetUp &t)
{
  const std::string posts =
      t.bench.device == cases::Device::posts ? " (" + posts_in_words(t.bench) + ")" : "";
  const std::string stop = stopped_by(t.limit, t.limit_place);
  return capital(device_name(t.bench.device)) + posts + ": after one pass " +
         bow_in_words(t.strung.bow) + ", twist " + twist_in_words(t.strung.twist) + ", strung" +
         (stop.empty() ? "" : "; stopped by " + stop) + ".";
}

std::string pass(const PlanReport &report, std::size_t number)
{
  const PassPlan &p = report.job->passes[number];
  const ClampSetting clamped =
      at_bench(report.the_case, p.overbend, report.job->diagnosis.as_built);
  std::string text = "Pass " + std::to_string(number + 1) + ": clamped at " +
                     bow_in_words(clamped.bow) + ", twist " + twist_in_words(clamped.twist) +
                     "; strung it then read " + bow_in_words(p.strung[1].bow) + ", twist " +
                     twist_in_words(p.strung[1].twist);
  if (report.job->line_moves)
    text += "; with a slow line " + bow_in_words(p.strung[0].bow) + ", with a fast one " +
            bow_in_words(p.strung[2].bow);
  return text + ".";
}

std::string wrapped_how(const cases::Schedule &schedule)
{
  if (!schedule.wrap)
    return "bare";
  return schedule.wrap_foil ? "wrapped in kitchen foil and dry cloth" : "wrapped in dry cloth";
}
} // namespace

void tried(std::ostringstream &out, const PlanReport &report)
{
  const Job &job = *report.job;
  const HeatPlaces &hot = job.heat.at_set_point;
  out << "\nWHAT WAS TRIED\n";
  paragraph(out, "Simulated only; nothing of it is to be done. The heat had the line at " +
                     both_temperatures(hot.line) + " at most and the top of the board at " +
                     both_temperatures(hot.board_surface) + ", the neck " +
                     wrapped_how(job.planned.schedule) + ".");
  std::vector<std::string> items;
  if (job.tried.size() > 1)
    for (const TriedSetUp &t : job.tried)
      items.push_back(set_up(t));
  for (std::size_t k = 0; k < job.passes.size(); ++k)
    items.push_back(pass(report, k));
  list(out, items);
}
} // namespace overbend::solver::text
