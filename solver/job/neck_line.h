// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/plan/plan.h"

#include <memory>

namespace overbend::solver
{
// How a line that is not known well is taken: the column it is told in, its place in the spread
// (materials::place_in_spread), what the bar overshoots by (K), and the factor on the neck's
// stiffness.
// coarseness: of the search (PlanInput), 1 for what counts.
struct LineChoice
{
  materials::LineSpeed speed = materials::LineSpeed::middle;
  double place = 0;
  double overshoot = 0;
  double stiffness_factor = 1;
  double coarseness = 1, step_coarseness = 1;
};

// Index of the last phase before the strings go on after the clamp: the end of a pass; the last
// phase without strings.
unsigned end_of_pass(const std::vector<cases::Phase> &phases);

// The neck with one speed of its glue line on one mesh, going through its passes. Each pass begins
// where the one before ended, strings off; what it is strung to is a side branch.
class NeckLine
{
public:
  // Throws NotConverged. Mesh and tables must outlive it; of the case it keeps a copy. `like`: a
  // line of the same case on the same mesh at another speed, before its first pass, whose climates
  // and found shape are taken over where they do not hang on the speed: heat and moisture without
  // an overshoot; the found shape unless a hot store, in which the line's speed counts, made it.
  NeckLine(const cases::Case &the_case, const mesh::NeckMesh &mesh, const materials::Tables &tables,
           const LineChoice &choice, std::function<void(const std::string &)> stage,
           const NeckLine *like = nullptr);

  NeckLine(const NeckLine &) = delete;

  // Sizes the overbend of the pass at hand, with what is not empty of PlanInput in `aim`.
  struct Aim
  {
    std::optional<ClampSetting> first_guess = {};
    std::optional<double> furthest_bow = {};
    const Sensitivity *sensitivity = nullptr;
  };
  PlanColumn size(const Aim &aim);
  // Where the unit histories put it, without a history of its own (aim_plan).
  PlanColumn aim_by_units();
  // One history with a given overbend, and with what the clamp is let up to at the second hot
  // reading.
  PlanColumn run(const ClampSetting &overbend, double cold_share,
                 const std::optional<ClampSetting> &second = {});
  // Before the first pass: whether it is read hot a second time.
  void read_twice(bool twice);
  // What the model reads then, in a history in which nothing is let up.
  Reading seen_at_second_reading(const PlanColumn &column) const;
  // What the model reads before the pass at hand, strings off.
  ClampSetting now() const;
  // Goes on from the end of the pass as it was run last.
  void next_pass();
  // Runs a first pass as it was done (cases::FirstPass, on the case at hand) up to its rest, and
  // returns what the bench would then read.
  Reading first_pass_as_done();
  // Goes on from there with the neck as it was read: what the history misses is added to each later
  // reading. From here on start() is this neck.
  void take_up_as_read();

  const Diagnosis &diagnosis() const { return found.diagnosis; }
  // The neck before any pass that is planned, and its water then.
  const FoundNeck &start() const { return planned_from; }
  const MoistureState &water_at_start() const { return planned_water; }
  // Reading as the bench reads it, of one of the model.
  Reading at_bench(const Reading &of_model) const;
  // At the end of the pass run last, strings off.
  Reading released(const PlanColumn &column) const;
  const std::vector<cases::Phase> &phases() const { return pass_phases; }
  Workbench &bench() const { return *workbench; }

private:
  PlanInput input() const;
  std::vector<cases::Phase> first_phases(bool read_twice) const;
  // Of the pass run last, for the one after it: its clock begins anew.
  MoistureState water_at_end() const;
  void follow_climates(const MoistureState &start);
  void go_on_with(std::vector<cases::Phase> phases);

  const cases::Case the_case;
  const mesh::NeckMesh &mesh;
  const materials::Tables &tables;
  const LineChoice choice;
  std::function<void(const std::string &)> stage;
  std::unique_ptr<Workbench> workbench;
  std::vector<cases::Phase> pass_phases;
  ThermalHistory heat, first_heat; // of the pass at hand, and of the first
  MoistureHistory moisture, first_moisture;
  FoundNeck as_found;     // before the first pass
  FoundNeck planned_from; // before the first pass that is planned
  MoistureState planned_water;
  FoundNeck found; // before the pass at hand
  Progress end;    // of the pass as it was run last
};
} // namespace overbend::solver
