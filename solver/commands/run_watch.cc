// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/commands/run_watch.h"

#include "solver/commands/timing.h"
#include "solver/report/pass_clock.h"
#include "solver/words/shop_words.h"

#include <algorithm>
#include <iostream>

namespace overbend::solver
{
RunWatch::RunWatch(const CommandOptions &command_options) : options(command_options) {}

double RunWatch::seconds() const
{
  return std::chrono::duration<double>(Clock::now() - run_start).count();
}

void RunWatch::show()
{
  if (!options.quiet)
    line.update(state);
}

void RunWatch::end_stage()
{
  if (!name.empty())
    timers().add(name, std::chrono::duration<double>(Clock::now() - stage_start).count());
  name.clear();
  line.clear();
}

void RunWatch::stage(const std::string &new_name, double share_from, double share_to)
{
  end_stage();
  name = new_name;
  from = share_from;
  to = share_to;
  stage_start = Clock::now();
  state.work = name;
  state.done = from;
  show();
}

void RunWatch::step(const cases::Case &c, const StepRecord &step)
{
  const cases::Phase &phase = c.phases.at(step.phase);
  const double in_phase =
      std::clamp((step.time - start_of(c, step.phase)) / phase.duration, 0., 1.);
  state.work = name + ", " + phase.name;
  // Phases cost about the same, however long they last: the steps grow with them.
  state.done = from + (to - from) * (step.phase + in_phase) / double(c.phases.size());
  show();
}

void RunWatch::print_timing(const SolverCounts &n)
{
  end_stage();
  if (!options.timing)
    return;
  std::cout << "\nTIMING\n"
            << timers().table() << "all " << fixed(seconds(), 1) << " s\nsteps " << n.steps
            << ", factorisations " << n.factorisations << " (" << fixed(n.seconds_factor, 1)
            << " s), solves " << n.solves << " with " << n.iterations << " iterations ("
            << fixed(n.seconds_solve, 1) << " s), laws at the points " << fixed(n.seconds_law, 1)
            << " s\n";
}
} // namespace overbend::solver
