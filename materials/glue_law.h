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

// Temperature (K) at one end of a step and the relative humidity (0..1) that the wood beside the
// glue is at rest with at 20 degC: glue_humidity(m) for a moisture content m. The line is inside
// wood that holds its water while it is warmed, so this does not change with the temperature; what
// the law makes of it does, see held_humidity().
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
  // line, or at one of the point; both are those of the wood beside it at 20 degC.
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
  double modulus_after(double reduced_time) const;
  GlueStep prepare_shifted(double log_shift0, double log_shift1, double dt) const;

  Glue material;
  double thickness;
  double rest_humidity; // of the wood beside it, at 20 degC
  double softening;
  unsigned branches;
};

// Humidity (0..1) of the air that wood is at rest with at a temperature (K), if it is at rest with
// `humidity` at 20 degC and keeps its water: 50 % become 57 % at 48 degC. From the handbook's
// sorption curve (its mean branch; the others differ by less than 1 %), tabulated, error below
// 2e-3 where the air comes to saturation and 1e-3 elsewhere; the temperature is held within the
// curve's -40 to 140 degC.
double held_humidity(double humidity, double temperature);

// Softening temperature (K) of the glue beside wood that is at rest with a relative humidity (0..1)
// at 20 degC and keeps its water while it is warmed to there.
//
// Glues that are not animal have next to no heat of sorption: warmed, they are at rest with the
// wood's water at its temperature, and soften some K lower than in air of that humidity,
// Tg = Tg_50 + slope (held_humidity(h, T) - 0.5), solved at T = Tg. Animal glue binds water as wood
// does and keeps what it has, Gordon-Taylor, Tg = (w_d Tg_d + k w Tg_w)/(w_d + k w), w the mass
// fraction of water; there humidity is held within 0.10 and 0.95, the range of the figures behind
// it. Both are estimates. Glue::softening_shift is added.
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
