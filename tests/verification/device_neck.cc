// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/verification/device_neck.h"

namespace overbend::tests
{
const std::vector<RiggedDevice> &rigged_devices()
{
  using cases::Device;
  using cases::TunerLayout;
  static const std::vector<RiggedDevice> all = {
      {"posts", Device::posts},
      {"posts in line", Device::posts, TunerLayout::bass_line},
      {"strap", Device::strap},
      {"headstock bar", Device::headstock_bar},
      {"strap and bar", Device::strap_and_bar},
      {"caul", Device::caul},
      {"posts, turned over", Device::posts, TunerLayout::both_sides, true},
      {"strap, turned over", Device::strap, TunerLayout::both_sides, true},
      {"headstock bar, turned over", Device::headstock_bar, TunerLayout::both_sides, true},
      {"caul, turned over", Device::caul, TunerLayout::both_sides, true}};
  return all;
}

cases::Case device_case(const RiggedDevice &device)
{
  cases::Case c = guard_case();
  c.neck.shaft.grain = {0, 0, 0.02, {}, {}, {}};
  c.neck.board.grain = {0, 0, 0.01, {}, {}, {}};
  c.tuners.layout = device.layout;
  if (device.layout != cases::TunerLayout::both_sides)
    c.tuners.across = 15e-3;
  c.bench.device = device.device;
  c.bench.turned_over = device.turned_over;
  return c;
}

namespace
{
solver::BenchSetup clamped()
{
  solver::BenchSetup setup;
  setup.cords = setup.cradle = true;
  setup.nut = false;
  return setup;
}
} // namespace

DeviceNeck::DeviceNeck(const cases::Case &the_case)
    : neck(the_case), start(solver::unstressed(neck.work.model)),
      setup(clamped()), problem{
                            neck.work.bench, neck.work.lines, neck.work.mechanics, setup, {}, {}, 0}
{}

solver::PullResult DeviceNeck::pull_to(double bow, double twist)
{
  const std::vector<double> cold(neck.work.model.space.n_nodes, materials::reference_temperature);
  neck.work.mechanics.begin(start, cold, cold, 0);
  displacement = start.displacement;
  problem.offsets = {};
  problem.load = neck.work.bench.load(setup);
  neck.work.bench.put_unit({}, setup, displacement, problem.offsets);
  result = solver::pull_to(problem, bow, twist, displacement);
  reading = solver::read(neck.work.lines, displacement);
  forces = neck.work.bench.forces(neck.work.bench.springs(setup, problem.offsets, 0), displacement);
  return result;
}

std::array<double, 2> DeviceNeck::unit_take_up(double bow, double twist)
{
  solver::Unit unit;
  unit.bow = bow;
  unit.twist = twist;
  unit.state = solver::unstressed(neck.work.model);
  unit.offsets.cradle.assign(problem.offsets.cradle.size(), 0.);
  solver::pull_unit(problem, result, unit);
  return unit.offsets.take_up;
}
} // namespace overbend::tests
