// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "viz/page/plan_file.h"

#include <string>

namespace overbend::viz
{
// How a number of the plan is written. The only place where pages change SI into what a bench
// reads. Every shown number carries where it comes from (data-value, a JSON pointer) and how it was
// written (data-as), so that it can be checked by a program.
enum class As {
  length,      // 0.24 mm (9.4 thou)
  size,        // the same without its sign
  signed_both, // +0.24 mm (+9.4 thou)
  pair,        // +0.24 / +9.4: mm and thou, for tables
  mm,          // +0.24, under a heading that names the unit
  thou,        // +9.4, the same
  bow,         // 0.24 mm (9.4 thou) back-bow
  twist,       // 0.25°, treble corner of the nut up
  angle,       // +0.25°
  angle_size,  // 0.25°, without its sign
  sticks,      // at 300 mm sticks: 1.31 mm (52 thou)
  temperature, // 48 °C (118 °F)
  force,       // 106 N (10.8 kgf, 23.8 lbf)
  megapascal,  // 0.327 MPa
  clock,       // 0:25
  duration,    // 6 days 23 h
  turns,       // 1 3/8, back by 1/4
  percent,     // 38 %
  ratio,       // 0.35
  count,       // 7
  text,        // a text of the plan, its units typeset
  verbatim     // a text of the plan as it is
};

const char *name(As as);

// The text alone.
std::string text_of(const Json &value, As as);

// <data data-value="/target/relief_m" data-as="length" value="...">...</data>
std::string shown(const PlanFile &plan, const std::string &pointer, As as);

// The same as a <tspan> for SVG.
std::string shown_in_svg(const PlanFile &plan, const std::string &pointer, As as);

// A list of the plan's texts; nothing if there are none.
std::string shown_list(const PlanFile &plan, const std::string &pointer);

// A number that is no number of the plan: advice that is the same for all, such as the length of
// winding sticks.
std::string fixed_words(const std::string &text);
} // namespace overbend::viz
