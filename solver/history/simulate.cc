// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/history/simulate.h"

#include "solver/history/history_run.h"

namespace overbend::solver
{
Reading read(const BoardLines &lines, const std::vector<double> &displacement)
{
  return {evaluate(lines.bow(0), displacement), evaluate(lines.bow(1), displacement),
          evaluate(lines.bow(2), displacement), evaluate(lines.twist(), displacement)};
}

History simulate(const NeckOnBench &neck, const std::vector<cases::Phase> &phases,
                 const StringPull &strings, const ThermalHistory &heat, const Progress &start,
                 const SimulationOptions &options)
{
  return HistoryRun(neck, phases, strings, heat, start, options).run();
}
} // namespace overbend::solver
