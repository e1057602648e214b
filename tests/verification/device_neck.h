// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/history/pull.h"
#include "tests/verification/guard_neck.h"

#include <string>

// The guard's coarse neck, made symmetric, under one of the devices, cold and at once.
namespace overbend::tests
{
struct RiggedDevice
{
  std::string name;
  cases::Device device;
  cases::TunerLayout layout = cases::TunerLayout::both_sides;
  bool turned_over = false;

  // -1 where it bows the neck back.
  double direction() const { return (device == cases::Device::caul) != turned_over ? 1 : -1; }
};

// Every device, face up and, where that differs, face down.
const std::vector<RiggedDevice> &rigged_devices();

cases::Case device_case(const RiggedDevice &device);

class DeviceNeck
{
public:
  explicit DeviceNeck(const RiggedDevice &device) : DeviceNeck(device_case(device)) {}
  explicit DeviceNeck(const cases::Case &the_case);

  // Pulls to a reading from the unstressed neck; keeps what came of it.
  solver::PullResult pull_to(double bow, double twist);
  // Change of the take-ups by a change of the readings, with the states of the last pull.
  std::array<double, 2> unit_take_up(double bow, double twist);

  GuardNeck neck;
  solver::MechanicsState start;
  solver::BenchSetup setup;
  solver::PullProblem problem;
  solver::PullResult result;
  std::vector<double> displacement;
  solver::Reading reading;
  solver::BenchForces forces;
};
} // namespace overbend::tests
