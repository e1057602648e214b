// SPDX-License-Identifier: GPL-3.0-or-later
#include "materials/wood_law.h"

#include "materials/exponential_step.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>

namespace overbend::materials
{
namespace
{
constexpr double gas_constant = 8.314462618; // J/(mol K), CODATA 2018

// Places of the normal block of Compliance: LL, RR, TT, LR, LT, RT.
constexpr unsigned first[6] = {0, 1, 2, 0, 0, 1};
constexpr unsigned second[6] = {0, 1, 2, 1, 2, 2};

// A stress below this many pascal along the grain (or as little energy in other directions) is
// round-off of the solver, not a load: it does not drive irrecoverable strain.
constexpr double no_stress = 100;

// m_ab = root_a root_b s_ab: a congruence, so m stays symmetric and positive definite with s.
Compliance congruent(const Compliance &s, const Vector6 &root)
{
  Compliance m;
  for (unsigned k = 0; k < 6; ++k)
    m.normal[k] = root[first[k]] * root[second[k]] * s.normal[k];
  for (unsigned k = 0; k < 3; ++k)
    m.shear[k] = root[3 + k] * root[3 + k] * s.shear[k];
  return m;
}

// sum = a + factor b
Compliance add(const Compliance &a, double factor, const Compliance &b)
{
  Compliance sum;
  for (unsigned k = 0; k < 6; ++k)
    sum.normal[k] = a.normal[k] + factor * b.normal[k];
  for (unsigned k = 0; k < 3; ++k)
    sum.shear[k] = a.shear[k] + factor * b.shear[k];
  return sum;
}

bool is_active(ActiveElements active, unsigned i)
{
  return (active >> i) & 1U;
}

// Share lost across the grain at +30 K, between the moistures of the handbook (6, 12, 20 %).
double drop_across(const Wood &wood, double moisture)
{
  const std::array<double, 3> &d = wood.drop_across;
  if (moisture <= 0.12)
    return d[0] + (d[1] - d[0]) * std::max(0., moisture - 0.06) / 0.06;
  return d[1] + (d[2] - d[1]) * std::min(1., (moisture - 0.12) / 0.08);
}
} // namespace

Vector6 Compliance::operator*(const Vector6 &s) const
{
  return {normal[0] * s[0] + normal[3] * s[1] + normal[4] * s[2],
          normal[3] * s[0] + normal[1] * s[1] + normal[5] * s[2],
          normal[4] * s[0] + normal[5] * s[1] + normal[2] * s[2],
          shear[0] * s[3],
          shear[1] * s[4],
          shear[2] * s[5]};
}

double Compliance::least_relative_minor() const
{
  for (const double diagonal : {normal[0], normal[1], normal[2], shear[0], shear[1], shear[2]})
    if (!(diagonal > 0))
      return -1;
  const double lr = normal[3] / std::sqrt(normal[0] * normal[1]);
  const double lt = normal[4] / std::sqrt(normal[0] * normal[2]);
  const double rt = normal[5] / std::sqrt(normal[1] * normal[2]);
  const double second = 1 - lr * lr;
  const double third = 1 + 2 * lr * lt * rt - lr * lr - lt * lt - rt * rt;
  return std::min({1., second, third});
}

WoodLaw::WoodLaw(const Wood &wood, double stiffness_factor)
    : material(wood), elements(static_cast<unsigned>(wood.creep_time.size()))
{
  if (elements > max_elements || wood.creep_share.size() != elements)
    throw std::logic_error("WoodLaw: creep chain of " + wood.name + " has a wrong length");
  if (!(stiffness_factor > 0))
    throw std::logic_error("WoodLaw: the stiffness factor must be positive");
  const double f = 1 / stiffness_factor;
  reference.normal = {f / wood.E_L,
                      f / wood.E_R,
                      f / wood.E_T,
                      -f * wood.nu_LR / wood.E_L,
                      -f * wood.nu_LT / wood.E_L,
                      -f * wood.nu_RT / wood.E_R};
  reference.shear = {f / wood.G_RT, f / wood.G_LT, f / wood.G_LR};
  for (unsigned a = 0; a < 6; ++a)
    creep_root[a] = std::sqrt(wood.creep_ratio[a]);
  log_green_ratio = std::log(wood.modulus_green_ratio);
}

Vector6 WoodLaw::roots_of_softening(double temperature, double moisture) const
{
  const Wood &w = material;
  const double m = std::clamp(moisture, 0., w.moisture_intersection);
  const double wet = log_green_ratio * (m - reference_moisture) /
                     (w.moisture_intersection - reference_moisture); // ln of moisture_factor()
  const double dT = temperature - reference_temperature;
  const double along = std::log1p(-w.drop_along * dT);
  const double across = std::log1p(-drop_across(w, m)) * dT / 30;
  const double shear = std::log1p(-w.drop_shear) * dT / 30;
  const double hot[6] = {along, across, across, shear, shear, shear};
  Vector6 root;
  for (unsigned a = 0; a < 6; ++a)
    root[a] = std::exp(-0.5 * (hot[a] + w.moisture_exponent[a] * wet));
  return root;
}

Compliance WoodLaw::elastic(double temperature, double moisture) const
{
  return congruent(reference, roots_of_softening(temperature, moisture));
}

double WoodLaw::shift(double temperature) const
{
  return std::exp(-material.activation_energy / gas_constant *
                  (1 / temperature - 1 / reference_temperature));
}

WoodStep WoodLaw::prepare(double T0, double T1, double dt, double moisture) const
{
  WoodStep step;
  const Compliance s1 = elastic(T1, moisture);
  step.creep1 = congruent(s1, creep_root);
  step.creep0 = T0 == T1 ? step.creep1 : congruent(elastic(T0, moisture), creep_root);
  step.elastic1 = add(s1, material.creep_instant, step.creep1);
  for (unsigned a = 0; a < 3; ++a)
    step.free_strain1[a] = material.expansion[a] * (T1 - reference_temperature);
  if (elements == 0)
    return step;
  const double dxi = dt == 0 ? 0 : dt * logarithmic_mean(shift(T0), shift(T1));
  for (unsigned i = 0; i < elements; ++i) {
    const ExponentialStep e = exponential_step(dxi / material.creep_time[i]);
    step.decay[i] = e.decay;
    step.weight0[i] = e.weight0;
    step.weight1[i] = e.weight1;
  }
  return step;
}

Compliance WoodLaw::tangent(const WoodStep &step, ActiveElements active) const
{
  double sum = 0;
  const double f = material.irrecoverable_share;
  for (unsigned i = 0; i < elements; ++i)
    sum += material.creep_share[i] * step.weight1[i] * (is_active(active, i) ? 1 : 1 - f);
  return add(step.elastic1, sum, step.creep1);
}

Vector6 WoodLaw::history(const WoodState &state, const WoodStep &step, ActiveElements active) const
{
  Vector6 strain = step.free_strain1;
  const Vector6 drive = step.creep0 * state.stress;
  const double f = material.irrecoverable_share;
  double sum = 0;
  for (unsigned i = 0; i < elements; ++i) {
    const bool works = is_active(active, i);
    sum += material.creep_share[i] * step.weight0[i] * (works ? 1 : 1 - f);
    const double keep = works ? step.decay[i] : 1;
    for (unsigned a = 0; a < 6; ++a)
      strain[a] += step.decay[i] * state.kelvin[i][a] + keep * state.irrecoverable[i][a];
  }
  for (unsigned a = 0; a < 6; ++a)
    strain[a] += sum * drive[a];
  return strain;
}

ActiveElements WoodLaw::active(const WoodState &state, const WoodStep &step,
                               const Vector6 &stress1) const
{
  if (elements == 0 || material.irrecoverable_share == 0)
    return 0;
  const Vector6 strain = step.creep1 * stress1;
  double energy = 0;
  for (unsigned a = 0; a < 6; ++a)
    energy += stress1[a] * strain[a];
  if (!(energy > no_stress * no_stress * step.creep1.normal[0]))
    return 0;
  unsigned bits = 0;
  for (unsigned i = 0; i < elements; ++i) {
    double kept = 0;
    for (unsigned a = 0; a < 6; ++a)
      kept += stress1[a] * state.irrecoverable[i][a];
    if (material.irrecoverable_share * material.creep_share[i] * energy > kept)
      bits |= 1U << i;
  }
  return static_cast<ActiveElements>(bits);
}

void WoodLaw::finish(WoodState &state, const WoodStep &step, ActiveElements active,
                     const Vector6 &stress1) const
{
  const Vector6 drive0 = step.creep0 * state.stress;
  const Vector6 drive1 = step.creep1 * stress1;
  const double f = material.irrecoverable_share;
  for (unsigned i = 0; i < elements; ++i) {
    const double g = material.creep_share[i];
    for (unsigned a = 0; a < 6; ++a) {
      const double gain = g * (step.weight0[i] * drive0[a] + step.weight1[i] * drive1[a]);
      double &kelvin = state.kelvin[i][a];
      kelvin = step.decay[i] * kelvin + (1 - f) * gain;
      double &kept = state.irrecoverable[i][a];
      if (is_active(active, i))
        kept = step.decay[i] * kept + f * gain;
    }
  }
  state.stress = stress1;
}
} // namespace overbend::materials
