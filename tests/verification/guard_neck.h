// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/plan.h"

#include <string>

// A whole neck on the bench, coarse and quick: what the guards against gross faults stand on.
namespace overbend::tests
{
// An electric neck with a bow and a little twist, its cords one a side, on half the default
// resolution. `more` is added to the case text, `schedule` to its [schedule].
cases::Case guard_case(const std::string &more = "", const std::string &schedule = "");

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

  cases::Case c;
  mesh::NeckMesh mesh;
  solver::PlanInput input;
  solver::Workbench work;
};
} // namespace overbend::tests
