// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/report/plan_report.h"

#include <algorithm>
#include <set>
#include <stdexcept>

namespace overbend::solver
{
const BenchState *ColumnBench::state_at(unsigned phase, bool at_start) const
{
  const BenchState *last = nullptr;
  for (const BenchState &state : states)
    if (state.phase == phase && !(at_start && last != nullptr))
      last = &state;
  return last;
}

ClampSetting at_bench(const cases::Case &c, const ClampSetting &s, const Reading &as_built)
{
  const Reading read = at_bench(c, Reading{0, s.bow, 0, s.twist}, as_built);
  return {read.bow, read.twist};
}

double bow_at_bench(const cases::Case &c, const BoardShape &shape, const Reading &as_built,
                    unsigned line, int fret)
{
  return bow_at_fret(bench_line(c, shape, as_built, line), fret, c.found.rest_fret_a,
                     c.found.rest_fret_b)
      .bow;
}

Rocking rocking_at_bench(const cases::Case &c, const BoardShape &shape, const Reading &as_built,
                         unsigned line)
{
  const RockingReading r =
      rocking_gaps(bench_line(c, shape, as_built, line), c.found.rest_fret_a, c.found.rest_fret_b);
  return {r.end_gap, r.hump_fret};
}

std::vector<int> reading_frets(const cases::Case &c)
{
  std::set<int> frets = {c.found.bow_fret};
  for (const int fret : {1, 3, 5, 7, 9, 12, 15, 17, 19, 21, 24})
    if (fret > c.found.rest_fret_a && fret < c.found.rest_fret_b)
      frets.insert(fret);
  return {frets.begin(), frets.end()};
}

const StepRecord &step_at_start(const History &history, unsigned phase)
{
  const auto step = std::find_if(history.steps.begin(), history.steps.end(),
                                 [&](const StepRecord &s) { return s.phase == phase; });
  if (step == history.steps.end())
    throw std::logic_error("the history has no steps of phase " + std::to_string(phase));
  return *step;
}
} // namespace overbend::solver
