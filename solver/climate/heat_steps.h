// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/climate/heat_system.h"
#include "solver/equations/tr_bdf2.h"

#include <list>
#include <memory>
#include <optional>
#include <vector>

// Heat in time, by TR-BDF2 (solver/equations/tr_bdf2.h).
namespace overbend::solver
{
// An ideal thermostat on the iron of limited power.
struct Thermostat
{
  double temperature = 0; // K, held at the bar's sensor
  double limit = 0;       // W
};

struct HeatStep
{
  std::vector<double> temperature; // at the end, K
  double power = 0;                // W, constant over the step
  double error = 0;                // K, largest estimated error of the step
  double bulge = 0;                // K, largest distance inside the step from a straight line
};

class HeatStepper
{
public:
  // The system must outlive the stepper. tolerance: K, for the radiation found by iteration.
  HeatStepper(const HeatSystem &system, std::vector<double> start, double time,
              double tolerance = 1e-3);

  // One step without taking it. With a thermostat the power is found such that the sensor ends at
  // the set temperature, or the power is at a limit: the system is linear in the power, so
  // T = T(no power) + P T(1 W). Throws std::runtime_error on a number that is not finite.
  HeatStep try_step(double dt, const std::optional<Thermostat> &thermostat = std::nullopt);
  void accept(const HeatStep &step, double dt);
  // What 1 W over a step tried before adds at the sensor, K.
  double sensor_rise(double dt);

  const std::vector<double> &temperature() const { return now; }
  double time() const { return clock; }
  unsigned factorisations() const { return factored; }
  unsigned solves() const { return solved; }

private:
  struct StepMatrix
  {
    double dt;
    Factor factor;
    std::vector<double> unit1, unit2; // answers to 1 W at both stages
  };
  StepMatrix &matrix_for(double dt);
  void find_unit_answer(StepMatrix &matrix) const;
  double add_power(const StepMatrix &matrix, const Thermostat &thermostat,
                   tr_bdf2::Stages &stages) const;
  HeatStep judge(const StepMatrix &matrix, double dt, double power,
                 const tr_bdf2::Stages &stages) const;
  std::vector<double> rate(const std::vector<double> &load, const std::vector<double> &T) const;
  std::vector<double> guess(double dt) const;

  const HeatSystem &system;
  double tolerance;
  double clock;
  std::vector<double> now;    // temperature
  std::vector<double> before; // temperature before the last step, empty at the start
  double last_dt = 0;
  std::list<StepMatrix> matrices; // latest first
  unsigned factored = 0;
  mutable unsigned solved = 0;
};

struct HeatStepLimits
{
  double first_step = 5;            // s, at most
  double longest_step = 30 * 86400; // s
  double error = 0.05;              // K, of a step and of a straight line in it
};

// A state reached, with the power since the state before.
struct HeatMoment
{
  double time;
  std::vector<double> temperature;
  double power;
};

// Steps over `duration` with error control. Steps are the duration over powers of two, so they land
// on its end and factors are used again; a step that is not accurate enough, or in which the
// thermostat changes between off, holding and full power with a visible effect, is cut. Throws
// std::runtime_error if cutting does not help.
std::vector<HeatMoment> run_heat(HeatStepper &stepper, double duration,
                                 const std::optional<Thermostat> &thermostat,
                                 const HeatStepLimits &limits);
} // namespace overbend::solver
