// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "materials/tables.h"

#include <array>
#include <cstdint>

// The law of one piece of wood at one point, in wood axes.
//
//   eps = S(T):sigma + sum eps_i + sum eps_v,i + alpha (T - T_ref)
//   d eps_i  /d xi = ((1-f) J_i:sigma - eps_i)/tau_i
//   d eps_v,i/d xi = (f J_i:sigma - eps_v,i)/tau_i   while sigma:(f J_i:sigma - eps_v,i) > 0,
//                    0                               else
//   d xi = a(T) dt
//
// f is the irrecoverable share. J_i,ab = g_i sqrt(r_a r_b) S_ab, r the creep ratios of the six
// directions against L. The step is exact for a stress that is linear in reduced time.
namespace overbend::materials
{
// Strain or stress in wood axes: LL, RR, TT, RT, LT, LR; shear strains are engineering ones.
using Vector6 = std::array<double, 6>;

// A symmetric compliance that does not mix normal and shear parts, as in wood axes.
struct Compliance
{
  // LL, RR, TT, LR(=12), LT(=13), RT(=23) of the normal block, 1/Pa
  std::array<double, 6> normal{};
  // RT, LT, LR shear, 1/Pa
  std::array<double, 3> shear{};

  Vector6 operator*(const Vector6 &stress) const;

  // Smallest of the leading minors of the normal block and of the shears, each divided by the
  // product of the diagonal terms it holds: positive if and only if the compliance is positive
  // definite, 1 at most for an uncoupled one.
  double least_relative_minor() const;
};

constexpr unsigned max_elements = 8;

// State of one point. Stress and strains in wood axes.
struct WoodState
{
  Vector6 stress{};
  std::array<Vector6, max_elements> kelvin{};
  std::array<Vector6, max_elements> irrecoverable{};
};

// One bit for each Kelvin element whose irrecoverable part is at work.
using ActiveElements = std::uint8_t;

// What a step of given temperatures and length does to a point, whatever its stress.
struct WoodStep
{
  std::array<double, max_elements> decay{};   // exp(-dxi/tau_i)
  std::array<double, max_elements> weight0{}; // phi1 - decay: weight of J_i:sigma at the start
  std::array<double, max_elements> weight1{}; // 1 - phi1: weight of J_i:sigma at the end
  Compliance elastic1;                        // S at the end, with the instantaneous creep part
  Compliance creep0, creep1;                  // J_i / g_i at start and end
  Vector6 free_strain1{};                     // alpha (T1 - T_ref)
};

class WoodLaw
{
public:
  // stiffness_factor multiplies all moduli (fitted from the strung bow).
  explicit WoodLaw(const Wood &wood, double stiffness_factor = 1);

  // Compliance at a temperature (K) and moisture content (kg/kg), without creep.
  Compliance elastic(double temperature, double moisture) const;

  // Shift a(T) of the creep: reduced time per time; 1 at 20 degC.
  double shift(double temperature) const;

  // Coefficients of a step of length dt (s) from temperature T0 to T1 (K) at constant moisture.
  // dt = 0 is an instantaneous step. The reduced time is by the logarithmic mean.
  WoodStep prepare(double T0, double T1, double dt, double moisture) const;

  // Strain at the end of the step that does not depend on the stress at the end:
  //   eps1 = tangent(step, active) * sigma1 + history(state, step, active)
  Compliance tangent(const WoodStep &step, ActiveElements active) const;
  Vector6 history(const WoodState &state, const WoodStep &step, ActiveElements active) const;

  // Elements whose irrecoverable part works for the stress at the end of the step.
  ActiveElements active(const WoodState &state, const WoodStep &step, const Vector6 &stress1) const;

  // Moves the state to the end of the step.
  void finish(WoodState &state, const WoodStep &step, ActiveElements active,
              const Vector6 &stress1) const;

  unsigned n_elements() const { return elements; }
  const Wood &wood() const { return material; }

private:
  // Square roots of the factors on the six diagonal compliances (temperature and moisture).
  Vector6 roots_of_softening(double temperature, double moisture) const;

  Wood material;
  unsigned elements;
  Compliance reference; // at 12 % moisture and 20 degC, with the stiffness factor
  Vector6 creep_root{}; // sqrt of the creep ratios
  double log_green_ratio = 0;
};
} // namespace overbend::materials
