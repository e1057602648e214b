// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "materials/tables.h"
#include "solver/history/start.h"
#include "solver/plan/clamp_setting.h"
#include "solver/plan/demand.h"
#include "solver/plan/workbench.h"
#include "solver/strength/peaks.h"

#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <vector>

namespace overbend::solver
{
// How the reading at the asked date follows the clamp setting.
struct Sensitivity
{
  // Change of (bow, twist) at the end by a change of the clamp's (bow, twist).
  double bow_by_bow = 0, bow_by_twist = 0, twist_by_bow = 0, twist_by_twist = 0;
};

// The phase at whose end the target is read: the last one before the phases of play, if any, that
// end the schedule; 0 when there is nothing but play. std::invalid_argument without phases.
unsigned phase_at_date(const std::vector<cases::Phase> &phases);

// The plan of one pass, for one speed of the glue line.
struct PlanColumn
{
  materials::LineSpeed speed = materials::LineSpeed::middle;
  Diagnosis diagnosis;
  ClampSetting first_guess;          // of the closed form
  ClampSetting setting;              // as planned: the overbend, pulled when hot
  ClampSetting cold;                 // the pull before the heat
  ClampSetting slack;                // where the clamp does nothing: the neck as it began
  double cold_share = 1;             // PullRule::cold_share
  Sensitivity sensitivity;           // of the last unit histories
  Limit limit = Limit::none;         // what stopped it short of the target
  std::optional<Region> limit_place; // where the limit is one of strength
  bool within_limits = true;         // of the last full run: bench and neck bear it
  bool on_target = false;
  Reading wanted, reached; // at the asked date, as the bench reads it
  History history;         // the full run with the setting
  Peaks peaks;
  std::vector<Demand> demands; // of the full run, the largest share first
  unsigned full_runs = 0, unit_runs = 0;
  double prediction_error_bow = 0, prediction_error_twist = 0; // units against the full run
  SolverCounts counts;

  // Otherwise the setting is only what was tried on it: nothing to clamp to, kept within no limit.
  bool line_moves() const { return limit != Limit::line_does_not_move; }
};

struct PlanInput
{
  const cases::Case &the_case;
  const mesh::NeckMesh &mesh;
  const materials::Tables &tables;
  // Called with a short name of the work at hand, for the progress line.
  std::function<void(const std::string &)> stage = [](const std::string &) {};
  std::function<void(const StepRecord &, const MechanicsState &)> observe_final;
  const MoistureHistory *moisture = nullptr; // of the phases; null: as the neck was built
  // Instead of the closed form's, without what is as built: an earlier plan, or a test.
  std::optional<ClampSetting> first_guess = {};
  // What the clamp is let up to at the second hot reading (cases::second_reading); empty: as it is.
  std::optional<ClampSetting> second_setting = {};
  // The phases planned; null: those of the case. Of a later pass, from where the one before ended.
  const std::vector<cases::Phase> *phases = nullptr;
  // The clamp's bow goes no further back than this, as the model reads: where a fast line would end
  // too far back.
  std::optional<double> furthest_bow = {};
  // Of an earlier plan of the same pass on another mesh: no unit histories are run then.
  const Sensitivity *sensitivity = nullptr;
  // Factor on the tolerance of the target, and on those of the time steps, for a plan that only
  // looks for a set-up.
  double coarseness = 1, step_coarseness = 1;
  std::optional<unsigned> keep_after = {}; // SimulationOptions::keep_after, of the full runs
};

// Sizes the overbend of one pass: the phases must hold a pull to a reading (std::logic_error
// otherwise). What limits it is met by going back along the line from the neck at hand to the
// target. Throws NotConverged.
PlanColumn make_plan(const PlanInput &input, Workbench &workbench, const ThermalHistory &heat,
                     const FoundNeck &found);

// Where the unit histories alone put the overbend, `reached` being what they foretell: before any
// history with it is run. The same demands as make_plan().
PlanColumn aim_plan(const PlanInput &input, Workbench &workbench, const ThermalHistory &heat,
                    const FoundNeck &found);

// One history of the pass with the overbend of PlanInput::first_guess (std::logic_error without
// it), nothing sized: what it reads and asks, and with unit histories also the sensitivity.
PlanColumn try_setting(const PlanInput &input, Workbench &workbench, const ThermalHistory &heat,
                       const FoundNeck &found, double cold_share, bool with_units);
} // namespace overbend::solver
