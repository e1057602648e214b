// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "materials/compliance.h"
#include "materials/tables.h"

#include <array>
#include <cstdint>
#include <optional>

// The law of one piece of wood at one point, in wood axes; T temperature, m moisture content.
//
//   eps   = eps_m + alpha (T - T_ref) + beta(m) - beta(m_built)
//   eps_m = S(T,m):sigma + sum eps_i + sum eps_v,i + sum eps_s,j + eps_d + eps_b
//   d eps_i  /d xi = ((1-f) J_i:sigma - eps_i)/tau_i
//   d eps_v,i/d xi = (f J_i:sigma - eps_v,i)/tau_i   while sigma:(f J_i:sigma - eps_v,i) > 0,
//                    0                               else
//   d xi = a(T,m) dt
//   d eps_s,j/d|m| = (J_s,j:sigma - eps_s,j)/u_j             mechano-sorptive, comes back
//   d eps_d /d(-m) = D:sigma   while m is below all it has been, 0 else      first-drying set
//   d eps_b /dm    = -b eps_m  along the grain             swelling of strained wood
//
// f is the irrecoverable share. J_i,ab = g_i sqrt(r_a r_b) S_ab, r the creep ratios of the six
// directions against L; J_s,j and D in the same manner with shares of their own for each direction.
// The steps are exact for a stress that is linear in reduced time, or in moisture; that of eps_b
// for a strain eps_m that stays over the step, else of first order.
//
// Mechano-sorption in the published forms: along the grain Toratti 1992, one element,
// eps_s = J_inf (1 - exp(-c sum|dm|)) sigma with c = 1/u; across the grain the three elements of
// Fortino, Mirianon and Toratti 2009; both from memory. Toratti has J_inf = 0.7 J_0 and c = 2.5.
// Here J_inf is 0.45 J_0, which is what beams in real climates leave for it, and c = 3.85, so that
// the start, J_inf c, is his. The limit is the sum of the shares (0.45 along, 3.7 across the
// elastic strain), however often moisture goes up and down, and an element recovers only when
// moisture moves. The set has no limit but that wood cannot be drier than dry. A step counts
// |m1 - m0|; a cycle inside one step is seen only if it is told the whole way (Climate::travel);
// the stress is then linear in the way.
//
// Wood strained along the grain swells less if stretched, more if compressed: Toratti 1992, also
// from memory, alpha - b eps with b = 1.3. So what bends grows as it dries and shrinks as it grows
// damp, by 1.3 % of itself for each 1 % of moisture, whatever the swelling itself. It comes back
// when moisture does; of wood loaded and unloaded at different moistures it leaves a strain.
namespace overbend::materials
{
constexpr unsigned max_elements = 8;
constexpr unsigned max_sorptive = 4;

// Temperature (K) and moisture content (kg/kg) at one end of a step.
struct Climate
{
  double temperature = reference_temperature;
  double moisture = reference_moisture;
  // Lowest moisture content the point has been at so far; asked only of the begin of a step. 0: it
  // has been dry before, so no set is to come. Who steps keeps it: min over the steps gone by.
  double driest = 0;
  // Asked only of the end of a step, where moisture swings within it: the sum of |dm| on the way
  // (not below |m1 - m0|), and how far it went below `driest` on the way. 0: straight from m0 to
  // m1.
  double travel = 0, dried = 0;
};

// State of one point. Stress and strains in wood axes.
struct WoodState
{
  Vector6 stress{};
  std::array<Vector6, max_elements> kelvin{};
  std::array<Vector6, max_elements> irrecoverable{};
  std::array<Vector6, max_sorptive> sorptive{}; // mechano-sorptive, recoverable
  Vector6 drying_set{};
  double strained_swelling = 0; // eps_b, along the grain
};

// state += factor * other: all members are linear in each other.
void add_times(WoodState &state, double factor, const WoodState &other);

// One bit for each Kelvin element whose irrecoverable part is at work.
using ActiveElements = std::uint8_t;

// What a step of given temperatures and length does to a point, whatever its stress.
struct WoodStep
{
  std::array<double, max_elements> decay{};   // exp(-dxi/tau_i)
  std::array<double, max_elements> weight0{}; // phi1 - decay: weight of J_i:sigma at the start
  std::array<double, max_elements> weight1{}; // 1 - phi1: weight of J_i:sigma at the end
  // Compliance at once at the end: S, the instantaneous creep part, and what moisture adds.
  Compliance elastic1;
  Compliance creep0, creep1; // J_i / g_i at start and end
  Vector6 free_strain1{};    // alpha (T1 - T_ref) + beta(m1) - beta(m_built)

  // The same weights for the mechano-sorptive elements, of |m1 - m0|/u_j; moisture content newly
  // lost (kg/kg), as weights of D:sigma at the two ends; and their sum on the stress at the start.
  bool moisture_moves = false;
  std::array<double, max_sorptive> sorptive_decay{};
  std::array<double, max_sorptive> sorptive_weight0{}, sorptive_weight1{};
  double drying_weight0 = 0, drying_weight1 = 0;
  double strained_gain = 0;       // d eps_b over the step for each eps_m at its start
  std::array<double, 3> along0{}; // row L of S at the start, 1/Pa; 0 where nothing moves
  Compliance sorptive0;
};

// Free swelling from one moisture content to another (kg/kg), as strain of L, R, T of the size the
// piece had at `built`. Across, Wood Handbook Eq. 4-9: shrinkage from green S = S_0 (1 - m/0.30),
// so strain = (S(built) - S(m))/(1 - S(built)). Along: two straight lines with a knee (Maas and
// Wittel). No change above fibre saturation.
std::array<double, 3> swelling_strain(const Wood &wood, double built, double moisture);

class WoodLaw
{
public:
  // stiffness_factor multiplies all moduli (fitted from the strung bow). built_moisture (kg/kg): at
  // this moisture content the piece has no swelling strain; not given: it never swells.
  explicit WoodLaw(const Wood &wood, double stiffness_factor = 1,
                   std::optional<double> built_moisture = std::nullopt);

  // Compliance at a temperature (K) and moisture content (kg/kg), without creep.
  Compliance elastic(double temperature, double moisture) const;

  // Shift a(T,m) of the creep: reduced time per time; 1 at 20 degC and 12 %.
  //   ln a = -E/R (1/T - 1/T_ref) + l(m) - l(m_ref),   l = gain/(1 + exp(-(m - middle)/width))
  // The logistic form and its numbers: Maas and Wittel (spruce, 20 degC, 35 to 90 % humidity), one
  // for all directions. Hardly any effect below 14 %; some forty times at 20 %.
  // Along the grain one fit, of compression, is steeper there than this (ln a -0.98 at 6 %, +1.86
  // at 15 % against 12 %, R2 0.83): dry wood then creeps some three times more slowly than told
  // here.
  double shift(double temperature, double moisture = reference_moisture) const;

  // Coefficients of a step of length dt (s) between two climates; both may change, moisture in one
  // sense. dt = 0 is an instantaneous step. The reduced time is by the logarithmic mean.
  // swelling_along multiplies the swelling along the grain (random field along the blank).
  WoodStep prepare(const Climate &begin, const Climate &end, double dt,
                   double swelling_along = 1) const;
  // The same at constant moisture.
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
  unsigned n_sorptive() const { return sorptives; }
  std::optional<double> built_moisture() const { return built; }
  const Wood &wood() const { return material; }

private:
  // Square roots of the factors on the six diagonal compliances (temperature and moisture).
  Vector6 roots_of_softening(double temperature, double moisture) const;
  void prepare_sorptive(WoodStep &step, const Climate &begin, const Climate &end) const;
  // eps_m along the grain at the start of a step in which moisture moves.
  double strain_along(const WoodState &state, const WoodStep &step) const;
  // J_s,j:sigma from the creep compliance; D:sigma for j = n_sorptive().
  Vector6 sorptive_drive(unsigned j, const Compliance &creep, const Vector6 &stress) const;
  void finish_sorptive(WoodState &state, const WoodStep &step, const Vector6 &stress1) const;

  Wood material;
  unsigned elements, sorptives;
  std::optional<double> built;
  Compliance reference; // at 12 % moisture and 20 degC, with the stiffness factor
  Vector6 creep_root{}; // sqrt of the creep ratios
  // sqrt of (share of the element / creep ratio), so that J_s,j is a congruence of the creep
  // compliance; the last one is that of the set, per kg/kg.
  std::array<Vector6, max_sorptive + 1> sorptive_root{};
  double log_green_ratio = 0;
};
} // namespace overbend::materials
