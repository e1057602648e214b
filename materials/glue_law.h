// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "materials/sorption.h"
#include "materials/tables.h"

#include <array>

// The law of a glue line at one point: generalised Maxwell in shear, elastic across.
//
//   tau = G_inf gamma + sum q_k,  d q_k/d xi = G_k d gamma/d xi - q_k/tau_k,  d xi = dt a(T, m)
//   gamma = slip / t_g
//
// a by WLF above the softening temperature, by Arrhenius below it, equal at it. Only shear relaxes:
// across the line the stiffness is (K + 4/3 G_glass)/t_g.
namespace overbend::materials
{
constexpr unsigned max_branches = 16;
using Vector2 = std::array<double, 2>;

struct GlueState
{
  Vector2 slip{};                             // m, two directions in the plane of the line
  std::array<Vector2, max_branches> branch{}; // tau of each branch, Pa
};

// state += factor * other: all members are linear in each other.
void add_times(GlueState &state, double factor, const GlueState &other);

// Temperature (K) at one end of a step and the relative humidity (0..1) that the glue is at rest
// with at 20 degC. A line inside wood holds its water while it is warmed, so for a point with a
// moisture content m of the wood beside it the humidity is glue_humidity(m), not that of the warm
// air.
struct GlueClimate
{
  double temperature = reference_temperature;
  double humidity = 0.5;
};

struct GlueStep
{
  std::array<double, max_branches> decay{};            // exp(-dxi/tau_k)
  double stiffness = 0;                                // d tau1 / d slip1, Pa/m
  std::array<double, max_branches> branch_stiffness{}; // of each branch, Pa/m
};

class GlueLaw
{
public:
  GlueLaw(const Glue &glue, double thickness, double humidity);

  // ln of the shift: reduced time per time, 0 at the softening temperature. At the humidity of the
  // line, or at one of the point.
  double log_shift(double temperature) const;
  double log_shift(double temperature, double humidity) const;

  // Coefficients of a step (logarithmic mean of the shift). dt = 0 is instantaneous. At the
  // humidity of the line, or between two climates of the point.
  GlueStep prepare(double T0, double T1, double dt) const;
  GlueStep prepare(const GlueClimate &begin, const GlueClimate &end, double dt) const;

  // Traction at the end of the step: tau1 = stiffness * slip1 + history(state, step).
  Vector2 history(const GlueState &state, const GlueStep &step) const;
  Vector2 traction(const GlueState &state) const;
  void finish(GlueState &state, const GlueStep &step, const Vector2 &slip1) const;

  double normal_stiffness() const; // Pa/m
  // G(t) at constant temperature, Pa; at the humidity of the line, or at one of the point.
  double relaxation_modulus(double temperature, double time) const;
  double relaxation_modulus(const GlueClimate &climate, double time) const;

  // Whether the slowest branch relaxes noticeably in a reduced time (more than a thousandth of it).
  bool flows_within(double reduced_time) const;
  double softening_temperature() const; // K, at the humidity given
  double glass_modulus() const;         // G_inf + sum of G_k, Pa
  unsigned n_branches() const;

private:
  double log_shift_against(double temperature, double softening_point) const;
  double modulus_after(double reduced_time) const;
  GlueStep prepare_shifted(double log_shift0, double log_shift1, double dt) const;

  Glue material;
  double thickness;
  double softening;
  unsigned branches;
};

// Softening temperature (K) of a glue that has come to rest with air of a relative humidity (0..1).
// Animal glue by Gordon-Taylor, Tg = (w_d Tg_d + k w Tg_w)/(w_d + k w), w the mass fraction of
// water; humidity is held within 0.10 and 0.95, the range of the figures behind it.
double softening_temperature(const Glue &glue, double humidity);

// Humidity (0..1) at 20 degC with which wood of a moisture content (kg/kg) is at rest: that of the
// glue beside it. By the handbook's sorption curve and the branch of it that the wood came by, held
// within 0 and 1; the inverse is tabulated (error below 1e-4), because it is asked for at every
// point and step.
double glue_humidity(double wood_moisture, SorptionBranch branch = SorptionBranch::mean);

// Strength of the bond in shear (Pa) at a temperature (K): constant below 20 degC, linear through
// the cold and the hot value, never below zero.
double bond_strength(const Glue &glue, double temperature);
} // namespace overbend::materials
