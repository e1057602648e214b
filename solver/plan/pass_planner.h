// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/plan/plan.h"
#include "solver/plan/sliding_line.h"

namespace overbend::solver
{
// Sizes the overbend of one pass, for one speed of the glue line (make_plan in plan.h tells how).
// Used once and thrown away. `base`: the last run that was made; the aim is made from it.
class PassPlanner
{
public:
  PassPlanner(const PlanInput &input_, Workbench &bench_, const ThermalHistory &heat_,
              const FoundNeck &found_);
  PlanColumn plan();
  PlanColumn aimed();
  PlanColumn try_one(double cold_share, bool with_units);

private:
  double share_kept_cold() const { return found.diagnosis.bonded_share; }
  SlippingBeam slipping_beam(double lift) const;
  void guess();
  void begin();
  History run(const Progress &start, bool final_run);
  void watch(const StepRecord &step, const MechanicsState &state);
  Reading read_at_bench(const Reading &of_model) const;
  void run_with_units();
  void note_pulls(const History &history);
  void aim();
  void look_ahead();
  void keep_within_overbend();
  void keep_forward_of_fast_line();
  void keep_within_forces();
  void spare_the_cold_pull(const Demand &d);
  bool phases_decide_cold() const { return !phases[deciding_phase(phases)].heater; }
  void name_limit(const Demand &demand);
  bool meets_all();
  static bool binds(const Demand &d) { return d.share >= 1 + 1e-6; }
  bool has_settled() const;
  Reading predicted() const;
  double missed() const;
  void run_full();

  const PlanInput &input;
  const cases::Case &the_case;
  const std::vector<cases::Phase> &phases;
  Workbench &workbench;
  const ThermalHistory &heat;
  const FoundNeck &found;
  PlanColumn column;
  PullRule rule;
  double cold_share_run = 1; // of the last run
  ClampSetting base_setting;
  Reading base_reading;
  ClampSetting full;    // what would reach the target
  double way_share = 1; // of the way to it from the neck at hand
  bool pulls_reached = true, slack_in_units = false;
};
} // namespace overbend::solver
