// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/text/plan_text_parts.h"

#include "solver/words/shop_words.h"

#include <cmath>

namespace overbend::solver::text
{
namespace
{
// Places in the spread closer to the middle than this are the middle line.
constexpr double about_the_middle = 0.15;

std::string line_in_words(const LineFit &fit)
{
  if (fit.slower_than_any)
    return "slower than any of its glue";
  if (fit.faster_than_any)
    return "faster than any of its glue";
  if (std::abs(fit.place) < about_the_middle)
    return "a middle one";
  return std::string(fit.place < 0 ? "slower" : "faster") + " than the middle one, by " +
         fixed(100 * std::abs(fit.place), 0) + " % of the way to the " +
         (fit.place < 0 ? "slow" : "fast") + " end";
}
} // namespace

void first_pass(std::ostringstream &out, const PlanReport &report)
{
  const cases::FirstPass &done = report.the_case.first_pass;
  if (!done.done() || !report.job || !report.job->first_pass)
    return;
  const LineFit &fit = *report.job->first_pass;
  paragraph(out, "The first pass is done: clamped hot to " + bow_in_words(*done.overbend) +
                     ", it reads " + bow_in_words(*done.bow) + " since, strings off" +
                     (done.twist ? ", twist " + twist_in_words(*done.twist) : "") +
                     ". A slow line would read " + bow_in_words(fit.slowest) + ", a fast one " +
                     bow_in_words(fit.fastest) + ": this line is " + line_in_words(fit) +
                     ". What follows is the second pass, planned with that line. Slow and fast "
                     "are now what the reading leaves open. Never a third.");
}
} // namespace overbend::solver::text
