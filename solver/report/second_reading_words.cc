// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/report/second_reading_words.h"

#include "cases/declare/phases.h"
#include "cases/text/units.h"
#include "solver/report/pass_clock.h"
#include "solver/words/pull_names.h"
#include "solver/words/shop_words.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>

namespace overbend::solver
{
namespace
{
constexpr double told_twist = 0.1 * 3.14159265358979323846 / 180; // rad

const PassPlan &read_twice(const PlanReport &report)
{
  const PassPlan *const pass = pass_read_twice(report);
  if (pass == nullptr)
    throw std::logic_error("nobody reads a second time");
  return *pass;
}

std::string wide(const std::string &words, std::size_t width)
{
  return words + std::string(width - std::min(width, words.size()), ' ');
}

std::string row(const std::string &indent, const std::string &reads, const std::string &line,
                const std::string &then)
{
  return indent + wide(reads, 23) + wide(line, 17) + then + "\n";
}
} // namespace

const PassPlan *pass_read_twice(const PlanReport &report)
{
  if (!report.job || report.job->passes.empty() || !report.job->passes.front().second)
    return nullptr;
  return &report.job->passes.front();
}

std::string second_reading_time(const PlanReport &report)
{
  const std::optional<unsigned> phase = cases::second_reading(report.the_case.phases);
  if (!phase)
    throw std::logic_error("nobody reads a second time");
  return when_it_begins(report.the_case, *phase);
}

std::string second_reading_in_words(const PlanReport &report)
{
  return "Read the bow in the clamp as you set it, at fret " +
         std::to_string(report.the_case.found.bow_fret) +
         ", bar lifted only as long as it takes to read. How far the neck has run on tells how "
         "fast its line is. One that has run on is let up; all others stay as "
         "they are:";
}

std::string second_reading_rows(const PlanReport &report, const std::string &indent)
{
  const PassPlan &pass = read_twice(report);
  const SecondReading &second = *pass.second;
  std::string rows = row(indent, "it reads", "the line is", "then");
  rows += row(indent, signed_length(second.slow.bow), "slow", "leave it");
  rows += row(indent, signed_length(second.middle.bow), "of middle speed", "leave it");
  const std::vector<LetUp> &faster = second.faster;
  for (std::size_t k = 0; k < faster.size(); ++k) {
    // Lines that read the same and are let up alike have one row.
    if (k + 1 < faster.size() && faster[k].to.bow == faster[k + 1].to.bow)
      continue;
    const ClampSetting to = at_bench(report.the_case, faster[k].to, report.job->diagnosis.as_built);
    rows += row(indent, signed_length(faster[k].seen.bow),
                k + 1 < faster.size() ? "faster" : "fast", "let it up to " + signed_length(to.bow));
  }
  return rows;
}

std::string second_reading_ends(const PlanReport &report)
{
  const PassPlan &pass = read_twice(report);
  const LetUp &fast = pass.second->faster.back();
  const bool turns = std::abs(fast.to.twist - pass.overbend.twist) > told_twist;
  const ClampSetting to = at_bench(report.the_case, fast.to, report.job->diagnosis.as_built);
  return "Between two rows go in proportion, beyond the last do as it says." +
         (turns ? " Its twist is then set to " + twist_in_words(to.twist) + "." : std::string()) +
         " Let up so, a fast line ends at " + signed_length(fast.strung.bow) +
         ", strung; left as it is it would end at " + signed_length(fast.left.bow) +
         ". A slow line ends at " + signed_length(pass.strung[0].bow) +
         ": it needs a second pass, planned from what it reads after its rest.";
}
} // namespace overbend::solver
