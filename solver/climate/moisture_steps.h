// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/climate/moisture_system.h"
#include "solver/equations/tr_bdf2.h"

#include <functional>

// Water in time, by TR-BDF2 (solver/equations/tr_bdf2.h) with coefficients of the middle of the
// step: D(T,m) and S(T,m) at the temperature there and at the moisture content carried on from the
// step before, found again if that was off. Second order; the flow through the surfaces is booked
// with the same coefficients, so it equals the change inside to round-off.
namespace overbend::solver
{
// Air at the surface points over a step.
struct SurfaceAir
{
  std::vector<double> vapour; // saturation pressure over that at 20 degC, mean over the step
  // Moisture content that the wood would rest at: at the start, at the first stage, at the end. Of
  // air that changes faster than the step: means weighted by vapour.
  std::array<std::vector<double>, 3> rest;
};

// What surrounds the neck over a step: nodal temperatures (K) that diffusion goes with, and the
// air.
struct MoistureDrive
{
  std::function<std::vector<double>(double time, double dt)> temperature;
  std::function<SurfaceAir(double time, double dt)> air;
};

struct MoistureStep
{
  std::vector<double> moisture; // at the end
  double error = 0, bulge = 0;  // kg/kg, as in tr_bdf2::Judgement
  double inflow = 0;            // kg through the surfaces during the step
};

class MoistureStepper
{
public:
  // The system must outlive the stepper; it is changed by every step. slack: coefficients are kept
  // while temperature has changed by less than this times 0.2 K and moisture by less than this
  // times 1e-3, about 1 % of D.
  MoistureStepper(MoistureSystem &system, MoistureDrive drive, std::vector<double> start,
                  double time, double slack = 1);

  // One step without taking it. Throws std::runtime_error on a number that is not finite.
  MoistureStep try_step(double dt);
  void accept(const MoistureStep &step, double dt);

  const std::vector<double> &moisture() const { return now; }
  double time() const { return clock; }
  unsigned factorisations() const { return factored; }

private:
  bool renew(const std::vector<double> &T, const std::vector<double> &m, const SurfaceAir &air,
             double dt);
  std::vector<double> guess(double dt) const;

  MoistureSystem &system;
  MoistureDrive drive;
  double clock, slack;
  std::vector<double> now, before;
  double last_dt = 0;
  // Of the coefficients and the factor at hand.
  std::vector<double> at_temperature, at_moisture, at_vapour;
  double factor_dt = 0;
  SparseMatrix matrix;
  Factor factor;
  unsigned factored = 0;
};

struct MoistureStepLimits
{
  double first_step = 60;           // s, at most
  double longest_step = 30 * 86400; // s
  double error = 2e-4;              // kg/kg, of a step and of a straight line in it
};

struct MoistureMoment
{
  double time;
  std::vector<double> moisture;
  double inflow; // kg since the moment before
};

// Steps over `duration` with error control (solver/equations/step_ladder.h). Throws
// std::runtime_error if cutting the steps does not help.
std::vector<MoistureMoment> run_moisture(MoistureStepper &stepper, double duration,
                                         const MoistureStepLimits &limits);
} // namespace overbend::solver
