// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cases/case/case.h"
#include "solver/bench/device.h"

#include <optional>
#include <vector>

// Statics of the devices, before anything is simulated: which pulls a wanted force and torque take,
// what torque is within reach, and what headstock, scarf and the hold of the body then carry.
// Rigid bodies and levers; source: statics, and the propped cantilever of beam theory. SI units.
//
// A pull is positive away from the strings (of a set-up turned over: towards them). Torque turns
// about the neck's axis, positive when it turns the treble side against the pull, so that it raises
// the treble corner of the nut; of a set-up turned over it lowers it.
namespace overbend::solver
{
// What the pulls put on the neck together.
struct NeckLoad
{
  double pull = 0;   // N
  double torque = 0; // N m
};

// F = sum of the single pulls P_k; T = - sum y_k P_k - sum 2 a_k C_k, with y_k the place across
// (treble positive), C the force at each end of a couple of arm a, positive drawing the treble end
// along the pull.
NeckLoad load_of(const std::vector<DevicePull> &pulls, const std::vector<double> &values);

struct PullsNeeded
{
  std::vector<double> pull;  // N, one a pull; of a couple the force at each end, of either sign
  bool pushes = false;       // a single pull comes out negative: cords cannot
  double torque_missing = 0; // N m: wanted less made; not zero only where one pull is all there is
};

// The pulls that make a force F and a torque T.
//   two single pulls:       P_1 = (F y_2 + T)/(y_2 - y_1),  P_2 = F - P_1
//   a pull and a couple:    P_1 = F,  C = -(T + y_1 F)/(2 a)
//   one pull:               P_1 = F,  T comes as it does: -y_1 F
// Throws std::invalid_argument for two single pulls in one line along the neck.
PullsNeeded pulls_for(const std::vector<DevicePull> &pulls, const NeckLoad &wanted);

struct TorqueRange
{
  double least = 0, most = 0; // N m
};

// Torques within reach at a total pull F while no cord pushes and none pulls more than its limit
// (N, one a pull). Empty: F itself is out of reach.
std::optional<TorqueRange> torque_range(const std::vector<DevicePull> &pulls, double pull,
                                        const std::vector<double> &limits);

// What a section of the neck carries between the pulls and the cradle: the headstock root at x = 0,
// a scarf at its place. With x_k < x: shear = sum P_k, bending = sum P_k (x - x_k), torque as
// load_of. A pull beyond the section adds nothing.
struct SectionLoad
{
  double shear = 0;   // N
  double bending = 0; // N m
  double torque = 0;  // N m
};
SectionLoad load_at(const std::vector<DevicePull> &pulls, const std::vector<double> &values,
                    double x);

// Where the neck is held, x in m.
struct Hold
{
  double cradle = 0, body_join = 0, pads = 0;
  cases::BodyHold body = cases::BodyHold::pads;
};
Hold hold_of(const cases::Case &the_case);

struct HoldLoad
{
  double cradle = 0;      // N, on the neck over the cradle
  double body_force = 0;  // N, with which the body must be held down on the bench
  double body_moment = 0; // N m, in the joint with the body, against the bending of the shaft
  double torque = 0;      // N m about the neck's axis; a narrow cradle takes none of it
};

// With M_c = sum P_k (x_c - x_k) about the cradle:
//   body on pads that let it tip (lever):   H = M_c/(x_p - x_c),  R = F + H,  no moment
//   body held rigidly (propped cantilever of one section, a = x_j - x_c):
//                                           H = 3 M_c/(2 a),      R = F + H,  moment M_c/2
// Pads resist tipping in part: a real bench lies between the two. Throws std::invalid_argument when
// the cradle is not between pulls and body.
HoldLoad hold_load(const std::vector<DevicePull> &pulls, const std::vector<double> &values,
                   const Hold &hold);

// A caul pressing with F at x_c between supports at x_n and x_b, the body free:
//   R_n = F (x_b - x_c)/(x_b - x_n),  R_b = F - R_n,  bending = R_n (x_c - x_n).
struct CaulLoad
{
  double nut_support = 0, body_support = 0; // N
  double bending = 0;                       // N m, largest, under the caul
};
CaulLoad caul_load(double force, double nut_support, double caul, double body_support);
} // namespace overbend::solver
