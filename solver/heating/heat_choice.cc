// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/heating/heat_choice.h"

#include "solver/heating/heat_trial.h"
#include "solver/plan/first_guess.h"
#include "solver/plan/share_needed.h"
#include "solver/plan/sliding_line.h"
#include "solver/plan/workbench.h"

#include <algorithm>
#include <cmath>

namespace overbend::solver
{
namespace
{
constexpr double hour = 3600;
// Hold of the trial, s: the line is at its steady temperature within an hour (trade 2.4 [E]).
constexpr double trial_hold = 1.5 * hour;
// Holds that a plan may choose, s.
constexpr double holds[] = {1.5 * hour, 2 * hour, 3 * hour, 4 * hour, 5 * hour, longest_hold};
// Ratio of bending stiffness of the loose layers and the bonded neck, where no history tells it yet
// (trade 2.5: 0.31 to 0.43 [E]).
constexpr double usual_rho = 0.4;
// The hold is chosen with this factor on the share needed: limits of force and strength stop a
// clamp before its furthest overbend.
constexpr double spare_share = 1.4;

class Chooser
{
public:
  Chooser(cases::Case &the_case, const mesh::NeckMesh &mesh_, const materials::Tables &tables_,
          double lift_)
      : c(the_case), mesh(mesh_), tables(tables_), lift(lift_), workbench(c, mesh, tables, {})
  {}

  HeatChoice choose()
  {
    // Held by a remote probe the bar is as hot as the probe asks for.
    set_point_is_open = c.left_open.bar_temperature && c.heater.held_by == cases::HeldBy::bar;
    choice.limits = heat_limits(c, tables);
    choice.overshoot = c.heater.overshoot;
    lay_bar(c);
    const cases::Schedule as_asked = c.schedule;
    if (c.left_open.hold)
      c.schedule.hold = trial_hold;
    if (set_point_is_open)
      c.heater.bar_temperature = choice.limits.fret_tops - choice.overshoot;
    Trial trial = wrapped_or_bare();
    set_point(trial);
    choose_hold(trial, as_asked);
    remake(c);
    return choice;
  }

private:
  double room() const { return c.room.temperature; }

  // Wrapped, unless the back under the cradle would then print.
  Trial wrapped_or_bare()
  {
    if (c.left_open.wrap) {
      c.schedule.wrap = true;
      choice.wrap = WrapReason::keeps_the_line_even;
    }
    remake(c);
    Trial trial = try_heat(c, workbench);
    if (!c.left_open.wrap)
      return trial;
    const double bar = set_point_is_open
                           ? first_stop(stops_above(trial.places)).second - choice.overshoot
                           : c.heater.bar_temperature;
    const double factor = (bar + choice.overshoot - room()) / (c.heater.bar_temperature - room());
    if (scaled(trial.places, room(), factor).back_under_cradle < choice.limits.back)
      return trial;
    c.schedule.wrap = false;
    choice.wrap = WrapReason::back_would_print;
    remake(c);
    return try_heat(c, workbench);
  }

  using Stop = std::pair<HeatStop, double>; // hottest bar that a place allows, K

  // Of the places that the bar heats from above, and with them the back.
  std::vector<Stop> stops_above(const HeatPlaces &p) const
  {
    const HeatLimits &l = choice.limits;
    return {{HeatStop::line, allowed(p.line, l.glue_line)},
            {HeatStop::board_surface, allowed(p.board_surface, l.surface)},
            {HeatStop::fret_tops, allowed(p.fret_tops, l.fret_tops)}};
  }
  std::vector<Stop> all_stops(const HeatPlaces &p) const
  {
    std::vector<Stop> stops = stops_above(p);
    stops.emplace_back(HeatStop::back_under_cradle,
                       allowed(p.back_under_cradle, choice.limits.back));
    return stops;
  }
  double allowed(double place, double limit) const
  {
    return hottest_bar(c.heater.bar_temperature, room(), place, limit);
  }
  static Stop first_stop(const std::vector<Stop> &stops)
  {
    return *std::min_element(stops.begin(), stops.end(),
                             [](const Stop &a, const Stop &b) { return a.second < b.second; });
  }

  void set_point(const Trial &trial)
  {
    const double tried = c.heater.bar_temperature;
    if (set_point_is_open) {
      constexpr double ice = 273.15;
      const Stop first = first_stop(all_stops(trial.places));
      choice.decided_by = first.first;
      c.heater.bar_temperature = ice + std::floor(first.second - choice.overshoot - ice + 1e-6);
    }
    choice.set_point = hottest_set_point();
    const double to = choice.set_point - room(), from = tried - room();
    const double factor = set_point_is_open ? to / from : 1;
    choice.at_set_point = scaled(trial.places, room(), factor);
    overshoot_places(trial);
  }

  // A bar under a thermostat passes its set point by the overshoot. A probe at the far end of the
  // heat's way moves by less than the bar: a bar that follows it moves by more, up to its own stop.
  // What the line has had before the probe came to its figure is taken to rise as much: too high
  // rather than too low.
  void overshoot_places(const Trial &trial)
  {
    const auto by = [&](double excess) {
      return (std::max(1., excess) + choice.overshoot) / std::max(1., excess);
    };
    if (c.heater.held_by == cases::HeldBy::bar) {
      choice.with_overshoot =
          scaled(choice.at_set_point, room(), by(choice.at_set_point.bar - room()));
      return;
    }
    const std::vector<double> &bar = trial.heat.all().back().bar;
    const double held = *std::max_element(bar.begin(), bar.end()),
                 stop = c.heater.bar_temperature + choice.overshoot;
    const double room_to_rise = std::max(1., (stop - room()) / std::max(1., held - room()));
    choice.with_overshoot =
        scaled(choice.at_set_point, room(), std::min(by(c.probe.hold_at - room()), room_to_rise));
    choice.with_overshoot.bar = std::min(choice.with_overshoot.bar, stop);
  }

  double hottest_set_point() const
  {
    double hottest = 0;
    if (set_point_is_open)
      return c.heater.bar_temperature;
    for (const cases::Phase &phase : c.phases)
      if (phase.heater)
        hottest = std::max(hottest, phase.bar_temperature);
    return hottest;
  }

  // Share kept with the line `warmer` than in the trial's end and after `hold` at it.
  double kept(const Trial &trial, double factor, double warmer, double hold) const
  {
    const SlippingBeam beam = slipping_beam(c, workbench.planned_strings.total, usual_rho, lift);
    LineStiffness line = held_line(workbench.model, trial.heat, room(), factor, warmer, hold);
    line.locked_at_body = locked_at_body(c);
    return (1 - usual_rho) * share_of_slip(beam, line, moment_of_clamp(c), read_over(c));
  }

  void choose_hold(const Trial &trial, const cases::Schedule &as_asked)
  {
    const double factor = (choice.at_set_point.line - room()) / (trial.places.line - room());
    const double before = c.schedule.heat;
    c.schedule.hold = as_asked.hold;
    const double needed = spare_share * share_needed(c, tables.limits, lift, usual_rho);
    if (c.left_open.hold)
      for (const double hold : holds) {
        c.schedule.hold = hold;
        const double now = kept(trial, factor, 0, before + hold);
        if (now >= needed &&
            kept(trial, factor, 0, before + hold + hour) - now < tables.limits.kept_an_hour)
          break;
      }
    const double hot = c.phases_listed ? listed_heat() : before + c.schedule.hold;
    choice.kept = kept(trial, factor, 0, hot);
    choice.kept_with_a_degree = kept(trial, factor, 1, hot);
    choice.kept_with_an_hour = kept(trial, factor, 0, hot + hour);
  }

  double listed_heat() const
  {
    double time = 0;
    for (const cases::Phase &phase : c.phases)
      if (phase.heater && phase.cords)
        time += phase.duration;
    return time;
  }

  cases::Case &c;
  const mesh::NeckMesh &mesh;
  const materials::Tables &tables;
  const double lift;
  const Workbench workbench;
  bool set_point_is_open = false;
  HeatChoice choice;
};
} // namespace

HeatChoice choose_heat(cases::Case &the_case, const mesh::NeckMesh &mesh,
                       const materials::Tables &tables, double lift)
{
  return Chooser(the_case, mesh, tables, lift).choose();
}
} // namespace overbend::solver
