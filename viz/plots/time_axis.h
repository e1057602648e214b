// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "viz/plots/plots.h"

namespace overbend::viz
{
// A phase of the plan's history, times in s from its start.
struct PlanPhase
{
  std::string name; // without the number of the pass
  double start = 0, end = 0;
  bool heated = false, clamped = false, strung = false;
  int pass = 1;
};
std::vector<PlanPhase> phases_of(const PlanFile &plan);

// Places of times on an axis that gives the hours with the bar on three times the room of the
// others, and of each other phase its first hour more than the later ones: most happens right after
// something was changed. Within a phase bare of heat a time t after its start lies at
// 2.5 ln(1 + t / 1 h).
class TimeAxis
{
public:
  TimeAxis(std::vector<PlanPhase> phases, double to); // s; what comes after `to` is left out

  double at(double time) const; // within the phases
  double end() const;           // place of `to`
  double last_time() const { return to; }

  // Bands, marks by each pass's clock (0:00 heat on; with + after its release) and small ticks.
  void put_on(Plot &plot) const;

private:
  struct Placed
  {
    PlanPhase phase;
    double from = 0, width = 0;
  };
  std::string clock_at(double time, int pass) const;
  std::vector<std::pair<double, std::string>> marks() const;
  std::vector<double> ticks() const;
  std::vector<Placed> placed;
  double to;
};
} // namespace overbend::viz
