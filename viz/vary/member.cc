// SPDX-License-Identifier: GPL-3.0-or-later
#include "viz/vary/member.h"

#include "solver/results/file_error.h"
#include "solver/results/record.h"
#include "viz/page/plan_file.h"

#include <filesystem>

namespace overbend::viz
{
namespace
{
std::optional<double> number_or_none(const PlanFile &plan, const std::string &pointer)
{
  return plan.has(pointer) ? std::optional(plan.number(pointer)) : std::nullopt;
}

// The demand that comes nearest to its limit, over all passes.
void take_hardest(const PlanFile &plan, Outcome &outcome)
{
  for (std::size_t k = 0; k < outcome.passes; ++k) {
    const std::string demands = "/job/passes/" + std::to_string(k) + "/demands";
    for (std::size_t i = 0; i < plan.size(demands); ++i) {
      const std::string at = demands + "/" + std::to_string(i);
      const std::string place = plan.text(at + "/place");
      const double share = plan.number(at + "/share");
      if (share > outcome.share && !place.empty()) {
        outcome.share = share;
        outcome.hardest = place;
      }
    }
  }
}
} // namespace

std::vector<std::string> plan_words(const std::string &program, const Member &member)
{
  return {program,       "plan",      member.case_file, "--output",
          member.folder, "--replace", "--no-pictures",  "--quiet"};
}

bool is_planned(const Member &member)
{
  // The index is the last that a plan writes for people.
  for (const char *file : {"plan.json", "index.html"})
    if (!std::filesystem::exists(std::filesystem::path(member.folder) / file))
      return false;
  try {
    return PlanFile(member.folder).text("/record/case SHA-256") ==
           solver::sha256(member.variant.text);
  } catch (const solver::FileError &) {
    return false; // damaged: planned anew
  }
}

Outcome outcome_of(const Member &member)
{
  const PlanFile plan(member.folder);
  Outcome outcome;
  outcome.verdict = plan.text("/verdict/kind");
  outcome.passes = plan.size("/job/passes");
  if (outcome.passes == 0)
    return outcome;
  const std::string last = "/job/passes/" + std::to_string(outcome.passes - 1);
  outcome.set_point = number_or_none(plan, "/job/heat/set_point_K");
  outcome.hold = number_or_none(plan, "/job/heat/hold_s");
  outcome.overbend = number_or_none(plan, "/job/passes/0/overbend/bow_centre_m");
  outcome.strung = number_or_none(plan, last + "/strung/middle/bow_centre_m");
  outcome.strung_slow = number_or_none(plan, last + "/strung/slow/bow_centre_m");
  outcome.strung_fast = number_or_none(plan, last + "/strung/fast/bow_centre_m");
  take_hardest(plan, outcome);
  return outcome;
}
} // namespace overbend::viz
