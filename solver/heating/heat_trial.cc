// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/heating/heat_trial.h"

#include "cases/declare/phases.h"
#include "mesh/neck_profile.h"
#include "solver/heating/line_heat.h"
#include "solver/plan/sliding_line.h"
#include "solver/plan/workbench.h"

#include <cmath>

// The history that tells how hot each place gets.
namespace overbend::solver
{
// The phases up to the end of the heat, for a trial.
std::vector<cases::Phase> until_the_heat_ends(const cases::Case &c)
{
  std::vector<cases::Phase> phases;
  bool heated = false;
  for (const cases::Phase &phase : c.phases) {
    if (heated && !phase.heater)
      break;
    heated = heated || (phase.heater && phase.cords);
    phases.push_back(phase);
  }
  return phases;
}

Trial try_heat(const cases::Case &c, const Workbench &workbench)
{
  Trial trial;
  trial.phases = until_the_heat_ends(c);
  const std::vector<double> cold(workbench.model.space.n_nodes, c.room.temperature);
  trial.heat = simulate_heat(workbench.model, heat_source(workbench.model, c), trial.phases, cold);
  const HottestPlaces hot = hottest_places(workbench.model, c, trial.heat);
  trial.places = {hot.line.temperature, hot.surface.temperature,      hot.fret_tops.temperature,
                  hot.bar.temperature,  hot.under_cradle.temperature, hot.scarf.temperature};
  return trial;
}

// Places with the bar at another temperature: what they have above the room grows with the bar's.
HeatPlaces scaled(const HeatPlaces &p, double room, double factor)
{
  const auto at = [&](double T) { return T > 0 ? room + factor * (T - room) : 0; };
  return {at(p.line), at(p.board_surface),     at(p.fret_tops),
          at(p.bar),  at(p.back_under_cradle), at(p.scarf)};
}

// Hottest bar that keeps a place within its limit.
double hottest_bar(double bar, double room, double place, double limit)
{
  return place > room + 1 ? room + (bar - room) * (limit - room) / (place - room) : HUGE_VAL;
}

// As wide as the board at fret 12, in whole mm: the edges of the line are its coldest places, and
// what they keep of their stiffness holds the rest.
void widen_bar(cases::Case &c)
{
  if (c.left_open.bar_width)
    c.heater.width = std::floor(1e3 * c.neck.width_at_12) / 1e3;
}

void lay_bar(cases::Case &c)
{
  widen_bar(c);
  if (!c.left_open.bar_ends)
    return;
  const mesh::NeckProfile profile(c.neck);
  // A bolted-on neck lies on the bench with all of its board; over a body only what is asked for
  // is heated: top, braces and joint stay cold.
  const bool bolted = c.neck.heel.kind == cases::HeelKind::bolt_on;
  c.heater.to = c.heater.iron_to = bolted ? profile.board_end : profile.body_join;
}

void remake(cases::Case &c)
{
  if (!c.phases_listed)
    c.phases = cases::scheduled_phases(c);
}
} // namespace overbend::solver
