// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "materials/tables.h"
#include "mesh/neck_mesh.h"
#include "solver/history/start.h"
#include "solver/model/build_model.h"
#include "solver/plan/peaks.h"

#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <vector>

namespace overbend::solver
{
// What the cords are to bring the neck to: centre bow (m) and twist (rad), the same in the cold
// clamp and at the hot re-reading.
struct ClampSetting
{
  double bow = 0, twist = 0;
};

// How the reading at the asked date follows the clamp setting.
struct Sensitivity
{
  // Change of (bow, twist) at the end by a change of the clamp's (bow, twist).
  double bow_by_bow = 0, bow_by_twist = 0, twist_by_bow = 0, twist_by_twist = 0;
};

// The phase at whose end the target is read: the last one before the phases of play, if any, that
// end the schedule; 0 when there is nothing but play. std::invalid_argument without phases.
unsigned phase_at_date(const std::vector<cases::Phase> &phases);

// What stops a plan short of its target. strength: of the wood, a bond, or the back under the
// cradle's pad (PlanColumn::limit_place).
enum class Limit {
  none,
  cord_pull,
  tuner_pull,
  strength,
  overbend,
  twist_out_of_reach,
  line_does_not_move
};

// The plan for one speed of the glue line.
struct PlanColumn
{
  materials::LineSpeed speed = materials::LineSpeed::middle;
  Diagnosis diagnosis;
  ClampSetting first_guess;          // of the closed form
  ClampSetting setting;              // as planned
  Sensitivity sensitivity;           // of the last unit histories
  Limit limit = Limit::none;         // what stopped it short of the target
  std::optional<Region> limit_place; // where the limit is one of strength
  bool within_limits = true;         // of the last full run: bench and neck bear it
  bool on_target = false;
  Reading wanted, reached; // at the asked date, as the bench reads it
  History history;         // the full run with the setting
  Peaks peaks;
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
  const MoistureHistory *moisture = nullptr; // of the case's phases; null: as the neck was built
  // Instead of the closed form's, without what is as built: an earlier plan, or a test.
  std::optional<ClampSetting> first_guess = {};
};

// The neck made ready for simulation: everything that all histories of one speed of line share.
struct Workbench
{
  Workbench(const PlanInput &input, const ModelChoices &choices);
  Workbench(const Workbench &) = delete;

  const cases::Case &the_case;
  Model model;
  StressMeans means;
  Bench bench;
  BoardLines lines;
  StringPull found_strings, planned_strings;
  Mechanics mechanics;
};

// Temperatures over all phases of the case.
ThermalHistory heat_of(const Workbench &workbench, const std::vector<cases::Phase> &phases);

// Moisture over all phases of the case, from what is known of the start.
MoistureHistory moisture_of(const Workbench &workbench, const std::vector<cases::Phase> &phases,
                            const ThermalHistory &heat);

// Sizes the clamp setting for the schedule of the case. The phases must hold at least one pull to a
// reading (std::logic_error otherwise). Throws NotConverged.
PlanColumn make_plan(const PlanInput &input, Workbench &workbench, const ThermalHistory &heat,
                     const FoundNeck &found);
} // namespace overbend::solver
