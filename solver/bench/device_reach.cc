// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/bench/device_reach.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>

namespace overbend::solver
{
namespace
{
// Two cords nearer than that across act in one line, m.
constexpr double one_line = 1e-4;

bool two_single(const std::vector<DevicePull> &pulls)
{
  return pulls.size() == 2 && !pulls[0].is_couple() && !pulls[1].is_couple();
}

// Moment of the pulls about a place, of those on the nut's side of it.
double moment_about(const std::vector<DevicePull> &pulls, const std::vector<double> &values,
                    double x)
{
  double moment = 0;
  for (std::size_t k = 0; k < pulls.size(); ++k)
    if (!pulls[k].is_couple() && pulls[k].x() < x)
      moment += values.at(k) * (x - pulls[k].x());
  return moment;
}
} // namespace

NeckLoad load_of(const std::vector<DevicePull> &pulls, const std::vector<double> &values)
{
  NeckLoad load;
  for (std::size_t k = 0; k < pulls.size(); ++k)
    if (pulls[k].is_couple()) {
      load.torque -= 2 * pulls[k].arm * values.at(k);
    } else {
      load.pull += values.at(k);
      load.torque -= pulls[k].y() * values.at(k);
    }
  return load;
}

PullsNeeded pulls_for(const std::vector<DevicePull> &pulls, const NeckLoad &wanted)
{
  PullsNeeded needed;
  if (two_single(pulls)) {
    const double y1 = pulls[0].y(), y2 = pulls[1].y();
    if (std::abs(y2 - y1) < one_line)
      throw std::invalid_argument("two pulls in one line make no torque");
    const double first = (wanted.pull * y2 + wanted.torque) / (y2 - y1);
    needed.pull = {first, wanted.pull - first};
  } else if (pulls.size() == 2) {
    const double torque = wanted.torque + pulls[0].y() * wanted.pull;
    needed.pull = {wanted.pull, -torque / (2 * pulls[1].arm)};
  } else {
    needed.pull = {wanted.pull};
    needed.torque_missing = wanted.torque - load_of(pulls, needed.pull).torque;
  }
  for (std::size_t k = 0; k < pulls.size(); ++k)
    needed.pushes = needed.pushes || (!pulls[k].is_couple() && needed.pull[k] < 0);
  return needed;
}

std::optional<TorqueRange> torque_range(const std::vector<DevicePull> &pulls, double pull,
                                        const std::vector<double> &limits)
{
  std::vector<double> one = {pull}, other = {pull};
  if (two_single(pulls)) {
    const double least = std::max(0., pull - limits.at(1)), most = std::min(pull, limits.at(0));
    if (least > most)
      return std::nullopt;
    one = {least, pull - least};
    other = {most, pull - most};
  } else {
    if (pull > limits.at(0))
      return std::nullopt;
    if (pulls.size() == 2) {
      one.push_back(limits.at(1));
      other.push_back(-limits.at(1));
    }
  }
  const double a = load_of(pulls, one).torque, b = load_of(pulls, other).torque;
  return TorqueRange{std::min(a, b), std::max(a, b)};
}

SectionLoad load_at(const std::vector<DevicePull> &pulls, const std::vector<double> &values,
                    double x)
{
  std::vector<DevicePull> before;
  std::vector<double> theirs;
  for (std::size_t k = 0; k < pulls.size(); ++k)
    if (pulls[k].x() < x) {
      before.push_back(pulls[k]);
      theirs.push_back(values.at(k));
    }
  const NeckLoad load = load_of(before, theirs);
  return {load.pull, moment_about(before, theirs, x), load.torque};
}

Hold hold_of(const cases::Case &c)
{
  const double join = cases::fret_position(c.neck.scale_length, c.neck.join_fret);
  return {c.bench.cradle_x, join, join + c.bench.pad_distance, c.bench.hold};
}

HoldLoad hold_load(const std::vector<DevicePull> &pulls, const std::vector<double> &values,
                   const Hold &hold)
{
  for (const DevicePull &pull : pulls)
    if (pull.x() >= hold.cradle || hold.cradle >= hold.body_join)
      throw std::invalid_argument("the cradle is not between the pulls and the body");
  const NeckLoad load = load_of(pulls, values);
  const double moment = moment_about(pulls, values, hold.cradle);
  HoldLoad result;
  result.torque = load.torque;
  if (hold.body == cases::BodyHold::rigid) {
    result.body_force = 1.5 * moment / (hold.body_join - hold.cradle);
    result.body_moment = moment / 2;
  } else {
    result.body_force = moment / (hold.pads - hold.cradle);
  }
  result.cradle = load.pull + result.body_force;
  return result;
}

CaulLoad caul_load(double force, double nut_support, double caul, double body_support)
{
  if (!(nut_support < caul && caul < body_support))
    throw std::invalid_argument("the caul is not between its supports");
  CaulLoad load;
  load.nut_support = force * (body_support - caul) / (body_support - nut_support);
  load.body_support = force - load.nut_support;
  load.bending = load.nut_support * (caul - nut_support);
  return load;
}
} // namespace overbend::solver
