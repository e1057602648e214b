// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/heating/line_heat.h"
#include "solver/job/job.h"
#include "solver/plan/bench_heat.h"
#include "solver/plan/plan.h"
#include "solver/readings/fret_surface.h"
#include "solver/report/plan_curves.h"
#include "solver/report/run_readings.h"
#include "solver/verdict/verdict.h"

#include <optional>
#include <vector>

// All that a plan has to say, gathered once and written twice: as text for the bench (plan_text.h)
// and as JSON for programs (plan_json.h). Neither computes anything of the model's.
namespace overbend::solver
{
// What a column's readings are made from beside its history: the neck as found, strings off, before
// any phase, and the states of its last full run, one a step.
struct ColumnBench
{
  BenchState found;
  Reading found_reading;
  std::vector<BenchState> states;

  // The state at the start (after what is done at the bench) or the end of a phase; null where no
  // states are kept.
  const BenchState *state_at(unsigned phase, bool at_start) const;
};

struct PlanReport
{
  explicit PlanReport(const cases::Case &planned_case) : the_case(planned_case) {}

  cases::Case the_case; // as planned: set-up and pulls filled in, phases of all passes
  Verdict verdict;
  std::optional<Lifts> lifts;                    // empty: refused before
  std::optional<double> stiffness_factor;        // empty: no strung reading
  double found_tension = 0, planned_tension = 0; // N, all strings
  // Set-up and passes; empty: refused before.
  std::optional<Job> job;
  // The accepted history, of the middle line. Empty: refused before.
  std::vector<PlanColumn> columns;
  std::vector<HeatReading> heat; // at the start and the end of each phase, two a phase
  std::optional<LineWarmth> line;
  // The board's line beside what the probe shows, at the end of the heat; empty without heat.
  std::optional<LineHeat> line_heat;
  double cord_per_turn = 0;       // m of cord for one turn of the button
  std::vector<ColumnBench> bench; // one a column; empty: refused before
  // Distance across between bass and treble line at each fret, m; one point a step of the main
  // column. Empty: refused before.
  std::vector<double> across_by_fret;
  std::vector<CurvePoint> curves;

  std::size_t main_number() const { return columns.size() / 2; }
  const PlanColumn &main_column() const { return columns[main_number()]; }
};

// Bow that the bench reads at a fret over the case's rest frets, on a line (0 bass, 1 centre,
// 2 treble). What is as built is taken as a parabola between the rest frets [E]: only its size at
// the fret of the readings is known.
double bow_at_bench(const cases::Case &the_case, const BoardShape &shape, const Reading &as_built,
                    unsigned line, int fret);

// What the cords are to bring the neck to as a bench reads it.
ClampSetting at_bench(const cases::Case &the_case, const ClampSetting &of_model,
                      const Reading &as_built);

// The end gaps (m) that an edge balanced on the hump of a back-bow shows over the rest frets, and
// the fret it rocks on; 0 without a hump.
struct Rocking
{
  double gap = 0;
  int fret = 0;
};
Rocking rocking_at_bench(const cases::Case &the_case, const BoardShape &shape,
                         const Reading &as_built, unsigned line);

// Frets worth reading: those with dots and the fret of the readings, between the rest frets.
std::vector<int> reading_frets(const cases::Case &the_case);

// The record of the time steps at the start of a phase: right after what was done at the bench.
const StepRecord &step_at_start(const History &history, unsigned phase);
} // namespace overbend::solver
