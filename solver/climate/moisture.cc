// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/climate/moisture.h"

#include "materials/damp_air.h"
#include "materials/sorption.h"
#include "materials/tables.h"
#include "solver/climate/moisture_breathing.h"
#include "solver/equations/in_time.h"
#include "solver/model/build_model.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>

namespace overbend::solver
{
namespace
{
// The air of a phase at the surfaces: its vapour stays what it is while the wood warms.
SurfaceAir air_at_surface(const std::vector<SurfacePoint> &points, const ThermalHistory &heat,
                          double vapour_pressure, materials::SorptionBranch branch, double time,
                          double dt)
{
  static const double cold = materials::saturation_pressure(materials::reference_temperature);
  SurfaceAir air;
  const double at[3] = {time, time + tr_bdf2::first_stage * dt, time + dt};
  for (unsigned k = 0; k < 3; ++k) {
    const std::vector<double> T = heat.at(at[k]);
    for (const SurfacePoint &p : points)
      air.rest[k].push_back(materials::equilibrium_moisture(
          T[p.node], std::min(1., vapour_pressure / materials::saturation_pressure(T[p.node])),
          branch));
  }
  const std::vector<double> T = heat.at(time + dt / 2);
  for (const SurfacePoint &p : points)
    air.vapour.push_back(materials::saturation_pressure(T[p.node]) / cold);
  return air;
}

// Over the step where moisture is followed by the hour, over a day at least where it is told in
// days.
double mean_of(const AirSeries &series, double time, double dt,
               const std::function<double(double, double)> &f)
{
  return series.breathes() ? series.mean_within(time, dt, f) : series.mean(time, dt, f);
}

// Air that changes: means over the step's course, and the temperature at which diffusion runs as
// fast as it does on average (by the energy of damp wood, materials/moisture_transport.h).
SurfaceAir air_in_climate(std::size_t points, const AirSeries &series,
                          materials::SorptionBranch branch, double time, double dt)
{
  static const double cold = materials::saturation_pressure(materials::reference_temperature);
  const double vapour = mean_of(
      series, time, dt, [](double T, double) { return materials::saturation_pressure(T) / cold; });
  const auto drive = [branch](double T, double p) {
    const double saturated = materials::saturation_pressure(T);
    return saturated / cold *
           materials::equilibrium_moisture(T, std::min(1., p / saturated), branch);
  };
  // The course through the step in means over a day, moved so that the step's own mean is kept.
  const double at[3] = {time, time + tr_bdf2::first_stage * dt, time + dt};
  const double weight[3] = {tr_bdf2::shared, tr_bdf2::shared, tr_bdf2::diagonal};
  double rest[3], missing = mean_of(series, time, dt, drive);
  for (unsigned k = 0; k < 3; ++k) {
    rest[k] = mean_of(series, at[k], 0, drive);
    missing -= weight[k] * rest[k];
  }
  SurfaceAir air{std::vector<double>(points, vapour), {}};
  for (unsigned k = 0; k < 3; ++k)
    air.rest[k].assign(points, (rest[k] + missing) / vapour);
  return air;
}

// K, activation energy of diffusion in the neck's wood over the gas constant.
double diffusing_energy(const Model &model)
{
  constexpr double gas_constant = 8.314462618; // J/(mol K), CODATA 2018
  constexpr double usual = 0.09;               // kg/kg; from 6 to 12 % the energy moves by 2.5 %
  for (const PieceModel &piece : model.piece)
    if (piece.law && piece.dry_density > 0) {
      const materials::Wood &wood = piece.law->wood();
      return (wood.diffusion_energy - wood.diffusion_energy_fall * usual) / gas_constant;
    }
  throw std::logic_error("moisture without wood");
}

double diffusing_temperature(const AirSeries &series, double energy, double time, double dt)
{
  if (!(energy > 0))
    return mean_of(series, time, dt, [](double T, double) { return T; });
  const double mean =
      mean_of(series, time, dt, [energy](double T, double) { return std::exp(-energy / T); });
  return -energy / std::log(mean);
}

std::vector<MoistureMoment> run_phase(const Model &model, const cases::Case &the_case,
                                      const cases::Phase &phase, const ThermalHistory &heat,
                                      const MoistureMoment &start, const MoistureStepLimits &limits)
{
  try {
    MoistureSystem system(model, moisture_surroundings(model, the_case, phase.air, phase.heater));
    const double pressure =
        phase.air.humidity * materials::saturation_pressure(phase.air.temperature);
    const auto branch = sorption_branch(the_case);
    const AirSeries *climate =
        phase.climate.points.empty() ? nullptr : heat.air(start.time, phase.duration);
    const double energy = diffusing_energy(model);
    const MoistureDrive drive{
        [&](double time, double dt) {
          return climate == nullptr
                     ? heat.at(time + dt / 2)
                     : std::vector<double>(system.size(),
                                           diffusing_temperature(*climate, energy, time, dt));
        },
        [&](double time, double dt) {
          if (climate != nullptr)
            return air_in_climate(system.surface().size(), *climate, branch, time, dt);
          return air_at_surface(system.surface(), heat, pressure, branch, time, dt);
        }};
    MoistureStepper stepper(system, drive, start.moisture, start.time);
    MoistureStepLimits within = limits;
    if (climate != nullptr && climate->breathes())
      within.longest_step = std::min(within.longest_step, climate->spacing());
    return run_moisture(stepper, phase.duration, within);
  } catch (const std::runtime_error &error) {
    throw std::runtime_error("Phase \"" + phase.name + "\", moisture: " + error.what());
  }
}

// Mean of a course, linear between its moments, over an interval within it.
std::vector<double> mean_over(const std::vector<const MoistureMoment *> &course, double from,
                              double to)
{
  std::vector<double> sum(course.front()->moisture.size(), 0.);
  for (std::size_t k = 0; k + 1 < course.size(); ++k) {
    const double t0 = course[k]->time, t1 = course[k + 1]->time, a = std::max(from, t0),
                 b = std::min(to, t1);
    if (!(b > a))
      continue;
    const double late = ((a + b) / 2 - t0) / (t1 - t0), weight = (b - a) / (to - from);
    for (std::size_t n = 0; n < sum.size(); ++n)
      sum[n] += weight * ((1 - late) * course[k]->moisture[n] + late * course[k + 1]->moisture[n]);
  }
  return sum;
}

// Tells a phase followed by the hour in running means over a day; their window shrinks towards both
// ends of the phase, where the states are those of the hours.
void add_in_days(const MoistureMoment &start, const std::vector<MoistureMoment> &hours,
                 MoistureHistory &history)
{
  std::vector<const MoistureMoment *> course{&start};
  for (const MoistureMoment &moment : hours)
    course.push_back(&moment);
  const double begin = start.time, end = hours.back().time;
  MoistureState state = history.all().back();
  double told = begin;
  for (std::size_t k = 1; k < course.size(); ++k) {
    const double time = course[k]->time;
    for (std::size_t n = 0; n < state.travel.size(); ++n) {
      state.travel[n] += std::abs(course[k]->moisture[n] - course[k - 1]->moisture[n]);
      state.driest[n] = std::min(state.driest[n], course[k]->moisture[n]);
    }
    const bool at_end = k + 1 == course.size();
    if (time < told + day_window / 4 && !at_end)
      continue;
    const double half = std::min({day_window / 2, time - begin, end - time});
    state.time = time;
    state.moisture = at_end ? course[k]->moisture : mean_over(course, time - half, time + half);
    history.add(state);
    told = time;
  }
}
} // namespace

double kiln_moisture()
{
  return materials::tables().woods.front().kiln_moisture;
}

MoistureHistory simulate_moisture(const Model &model, const cases::Case &the_case,
                                  const std::vector<cases::Phase> &phases,
                                  const ThermalHistory &heat, const MoistureState &start,
                                  const MoistureStepLimits &limits)
{
  if (start.moisture.size() != model.space.n_nodes)
    throw std::logic_error("moisture needs a value for each node");
  MoistureHistory history;
  MoistureMoment now{0, start.moisture, 0};
  history.add(start);
  for (const cases::Phase &phase : phases) {
    const double begin = now.time;
    std::vector<MoistureMoment> moments = run_phase(model, the_case, phase, heat, now, limits);
    const AirSeries *air = phase.climate.points.empty() ? nullptr : heat.air(begin, phase.duration);
    if (air != nullptr && air->breathes())
      add_in_days(now, moments, history);
    else if (air != nullptr && air->swings())
      add_with_breathing(model, the_case, phase, now, moments, history);
    else
      for (const MoistureMoment &moment : moments)
        history.add(moment.time, moment.moisture);
    if (!moments.empty())
      now = std::move(moments.back());
    now.time = begin + phase.duration;
  }
  return history;
}
} // namespace overbend::solver
