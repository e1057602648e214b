// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/heating/heat_choice.h"
#include "solver/job/line_fit.h"
#include "solver/job/neck_line.h"
#include "solver/job/second_reading.h"
#include "solver/plan/share_needed.h"

#include <array>
#include <string>
#include <vector>

// The whole job: set-up, one pass or two, and what slow, middle and fast lines make of it.
//
// Set-up and passes are looked for on a coarse mesh; the middle line's settings are then settled on
// the mesh that the case asks for. A first pass is sized within its limits, and so that a fast line
// still ends where the rod can mend it. Where it ends short of the target, a second pass goes on
// from where the first ended; never a third. A first pass that was done and read
// (cases::FirstPass) tells how fast the line is, and only the second is sized.
namespace overbend::solver
{
// A slow, a middle and a fast line, in this order: entries of BySpeed.
constexpr std::array<materials::LineSpeed, 3> line_speeds = {
    materials::LineSpeed::slow, materials::LineSpeed::middle, materials::LineSpeed::fast};
using BySpeed = std::array<Reading, 3>; // as the bench reads it

// One pass. Settings are as the model reads; Limit, demands: of the middle line.
struct PassPlan
{
  ClampSetting overbend, cold;
  ClampSetting slack; // where the clamp does nothing
  double cold_share = 1;
  ClampSetting first_guess;
  Sensitivity sensitivity;
  Limit limit = Limit::none;
  std::optional<Region> limit_place;
  bool pull_reached = true;
  std::vector<Demand> demands;
  BySpeed released; // at the end of the rest, strings off
  BySpeed strung;   // strung, at the date asked, if it is strung after this pass
  // Where the pass is read hot a second time; the fast line's readings are then with what is let
  // up.
  std::optional<SecondReading> second;
};

// A set-up that was tried, and how far its first pass came (middle line).
struct TriedSetUp
{
  cases::Bench bench;
  Reading strung;
  bool on_target = false;
  Limit limit = Limit::none;
  std::optional<Region> limit_place;
  std::vector<Demand> demands;
};

struct Job
{
  cases::Case planned; // set-up filled in; its phases are those of all passes
  HeatChoice heat;
  Diagnosis diagnosis; // middle line
  std::vector<TriedSetUp> tried;
  // A first pass that was done, and the line that reads what was read after it: then slow, middle
  // and fast are what that reading leaves open, and `passes` holds the second pass alone.
  std::optional<LineFit> first_pass;
  std::vector<PassPlan> passes;
  Reading wanted;
  // Middle line, strung at the date asked, within what is no miss (WorkLimits::bow_miss).
  bool ends = false;
  bool line_moves = true;
  std::shared_ptr<NeckLine> line; // the middle one, on the mesh asked for
};

struct JobInput
{
  const cases::Case &the_case;
  const mesh::NeckMesh &mesh; // as the case asks
  const materials::Tables &tables;
  std::optional<double> stiffness_factor = {};
  double lift = 0;    // m, of the strings to come on the bonded neck
  double tension = 0; // N, of these strings
  std::function<void(const std::string &)> stage = [](const std::string &) {};
};

// Whether a strung reading is what was wanted, within the limits of a miss.
bool is_close(const Reading &reached, const Reading &wanted, const materials::WorkLimits &limits);

// Throws NotConverged.
Job plan_job(const JobInput &input);
} // namespace overbend::solver
