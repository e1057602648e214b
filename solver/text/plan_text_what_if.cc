// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/report/what_if.h"
#include "solver/text/plan_text_parts.h"
#include "solver/words/shop_words.h"

namespace overbend::solver::text
{
namespace
{
constexpr std::size_t width = 18;

// "+0.24 / +9.4"
std::string pair(double metres)
{
  constexpr double thou = 25.4e-6;
  const char *const plus = metres < 0 ? "" : "+";
  return plus + fixed(1e3 * metres, 2) + " / " + plus + fixed(metres / thou, 1);
}

std::string cell(double bow)
{
  return padded(pair(bow), width);
}
} // namespace

void what_if(std::ostringstream &out, const PlanReport &report)
{
  const std::optional<WhatIf> other = solver::what_if(report);
  if (!other || other->clamp.size() < 2)
    return;
  out << "\nIF YOU CLAMP IT TO SOMETHING ELSE\n";
  paragraph(out, "Bows on the centre line, mm / thou, forward +: what the clamp is set to hot in "
                 "pass " +
                     std::to_string(other->pass) +
                     ", and what it then reads strung at the date asked if it is strung after "
                     "that pass.");
  out << "    " << padded("clamp", width) << padded("slow line", width)
      << padded("middle line", width) << "fast line\n";
  for (const WhatIfClamp &one : other->clamp)
    out << (one.is_the_plan ? "  > " : "    ") << cell(one.overbend) << cell(one.strung[0])
        << cell(one.strung[1]) << pair(one.strung[2]) << "\n";
  std::string text = "> is the plan. The table ends where its straight lines do: ";
  text += other->deepest_because.empty()
              ? fixed(100 * what_if_range, 0) + " % of the clamped way to either side."
              : "deeper, " + other->deepest_because + " comes to its limit.";
  if (other->with_a_degree)
    text += " One kelvin more at the bar: " + signed_length(*other->with_a_degree) +
            "; one hour more: " + signed_length(*other->with_an_hour) + " (middle line).";
  paragraph(out, text);
}
} // namespace overbend::solver::text
