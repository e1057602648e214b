// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/report/plan_report.h"

#include <string>
#include <vector>

// What a bench needs beside the numbers of the model: bands, stop figures, the unknown that matters
// most. Judgements of the trade [E] on numbers of the plan [C]; nothing of the model is computed
// here.
namespace overbend::solver
{
// When a reading is expected.
enum class Occasion { released, before_second_pass, before_strings, strung, at_date };

// Its stable word in plan.json.
const char *word(Occasion occasion);

// A reading to expect, with the band in which it should fall.
struct Expected
{
  Occasion occasion = Occasion::released;
  std::string name;      // "right after release", "strung, 7 days after release"
  unsigned phase = 0;    // of the main column
  bool at_start = false; // of the phase, else at its end
  Reading reading;       // as built included
  Reading low, high;
};

// Half of the last expected reading's band: from a slow to a fast line, and what a bench can read
// (0.03 mm and 0.1 degrees, trade 1.3).
struct Tolerance
{
  double bow = 0;   // m
  double twist = 0; // rad
  std::string source;
};
Tolerance tolerance(const PlanReport &report);

// The release, the stringing, and the end. Empty without columns.
std::vector<Expected> expected_readings(const PlanReport &report);

// How much further past straight a second pass is to be clamped for each metre that the strung
// reading is too far forward: one over the sensitivity of the plan. The neck has changed by then,
// so it is a guide [E].
double second_pass_guide(const PlanColumn &column);

// What never to pass, K. Bar: the lowest limit of glue, finish and binding, and at most 3 K over
// the temperature to hold. Probe: what it shows when the hottest place of the line is at its limit,
// and at most 3 K over what it should come to (trade: 52 for 49 degC on the card [E]).
struct StopTemperatures
{
  double bar = 0, probe = 0;
  std::string because; // what sets the bar's limit
};
StopTemperatures stop_temperatures(const PlanReport &report, const HeatLimits &limits);

struct Unknown
{
  std::string what, effect, how_to_tell;
};
Unknown unknown_that_matters_most(const PlanReport &report);

// Cautions that fit finish, binding, glue and headstock, a line each, for a card.
std::vector<std::string> card_cautions(const cases::Case &the_case);

// Moments that plots and pictures show beside each other.
struct Stage
{
  std::string name;
  unsigned phase = 0;
  bool at_start = false;
};
// "as found" is not among them: it is before the first phase.
std::vector<Stage> stages(const cases::Case &the_case);
} // namespace overbend::solver
