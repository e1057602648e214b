// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/history/simulate.h"
#include "solver/plan/plan.h"

#include <string>
#include <vector>

// A whole neck on the bench, coarse and quick: what the guards against gross faults stand on.
namespace overbend::tests
{
// An electric neck with a bow and a little twist, its cords one a side, on half the default
// resolution. `more` is added to the case text, `schedule` to its [schedule].
cases::Case guard_case(const std::string &more = "", const std::string &schedule = "");

// Air that changes at some hours of the day and is the same every day; told by the hour.
struct AirFrom
{
  double hour, celsius, humidity;
};
cases::Climate each_day(const std::vector<AirFrom> &changes);

struct GuardNeck
{
  explicit GuardNeck(cases::Case checked_case = guard_case());

  // What stands on the bench when cold and unstressed, an instant after a change.
  struct AtOnce
  {
    std::vector<double> displacement;
    solver::BenchForces forces;
    solver::Reading reading;
  };
  AtOnce at_once(const solver::BenchSetup &setup, const solver::BenchOffsets &offsets,
                 const std::vector<double> &extra_load = {});

  // Phases on the unstressed neck, with the strings to come where a phase has strings, and with the
  // error a step that c.numerics says.
  solver::History from_unstressed(const std::vector<cases::Phase> &phases,
                                  const solver::ThermalHistory &heat,
                                  const solver::MoistureHistory &moisture);

  cases::Case c;
  mesh::NeckMesh mesh;
  solver::PlanInput input;
  solver::Workbench work;
};
} // namespace overbend::tests
