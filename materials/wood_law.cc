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
// A stress below this many pascal along the grain (or as little energy in other directions) is
// round-off of the solver, not a load: it does not drive irrecoverable strain.
constexpr double no_stress = 100;

// Root of a share of the elastic strain over the creep ratio; none without the share.
double share_root(double share, double creep_ratio)
{
  return share > 0 ? std::sqrt(share / creep_ratio) : 0;
}

bool is_active(ActiveElements active, unsigned i)
{
  return (active >> i) & 1U;
}

} // namespace

WoodLaw::WoodLaw(const Wood &wood, double stiffness_factor, std::optional<double> built_moisture)
    : material(wood), elements(static_cast<unsigned>(wood.creep_time.size())),
      sorptives(static_cast<unsigned>(wood.sorptive_moisture.size())), built(built_moisture)
{
  if (elements > max_elements || wood.creep_share.size() != elements)
    throw std::logic_error("WoodLaw: creep chain of " + wood.name + " has a wrong length");
  if (sorptives > max_sorptive || wood.sorptive_share.size() != sorptives)
    throw std::logic_error("WoodLaw: mechano-sorption of " + wood.name + " has a wrong length");
  if (!(stiffness_factor > 0))
    throw std::logic_error("WoodLaw: the stiffness factor must be positive");
  if (built && !(*built >= 0))
    throw std::logic_error("WoodLaw: the moisture content as built must not be negative");
  const double f = 1 / stiffness_factor;
  reference.normal = {f / wood.E_L,
                      f / wood.E_R,
                      f / wood.E_T,
                      -f * wood.nu_LR / wood.E_L,
                      -f * wood.nu_LT / wood.E_L,
                      -f * wood.nu_RT / wood.E_R};
  reference.shear = {f / wood.G_RT, f / wood.G_LT, f / wood.G_LR};
  for (unsigned a = 0; a < 6; ++a) {
    creep_root[a] = std::sqrt(wood.creep_ratio[a]);
    for (unsigned j = 0; j < sorptives; ++j)
      sorptive_root[j][a] = share_root(wood.sorptive_share[j][a], wood.creep_ratio[a]);
    sorptive_root[sorptives][a] = share_root(wood.drying_set[a], wood.creep_ratio[a]);
  }
  log_green_ratio = std::log(wood.modulus_green_ratio);
}

WoodStep WoodLaw::prepare(double T0, double T1, double dt, double moisture) const
{
  return prepare(Climate{T0, moisture}, Climate{T1, moisture}, dt);
}

WoodStep WoodLaw::prepare(const Climate &begin, const Climate &end, double dt,
                          double swelling_along) const
{
  WoodStep step;
  const double T0 = begin.temperature, T1 = end.temperature;
  step.moisture_moves = begin.moisture != end.moisture || end.travel > 0;
  const Compliance s1 = elastic(T1, end.moisture);
  step.creep1 = congruent(s1, creep_root);
  step.creep0 = step.creep1;
  if (T0 != T1 || step.moisture_moves) {
    const Compliance s0 = elastic(T0, begin.moisture);
    step.creep0 = congruent(s0, creep_root);
    step.along0 = {s0.normal[0], s0.normal[3], s0.normal[4]};
  }
  step.elastic1 = add(s1, material.creep_instant, step.creep1);
  for (unsigned a = 0; a < 3; ++a)
    step.free_strain1[a] = material.expansion[a] * (T1 - reference_temperature);
  if (built) {
    const std::array<double, 3> swollen = swelling_strain(material, *built, end.moisture);
    for (unsigned a = 0; a < 3; ++a)
      step.free_strain1[a] += (a == 0 ? swelling_along : 1) * swollen[a];
  }
  prepare_sorptive(step, begin, end);
  if (elements == 0)
    return step;
  const double dxi =
      dt == 0 ? 0 : dt * logarithmic_mean(shift(T0, begin.moisture), shift(T1, end.moisture));
  for (unsigned i = 0; i < elements; ++i) {
    const ExponentialStep e = exponential_step(dxi / material.creep_time[i]);
    step.decay[i] = e.decay;
    step.weight0[i] = e.weight0;
    step.weight1[i] = e.weight1;
  }
  return step;
}

void WoodLaw::prepare_sorptive(WoodStep &step, const Climate &begin, const Climate &end) const
{
  step.sorptive_decay.fill(1);
  // Free water above fibre saturation moves nothing.
  const double m0 = std::min(begin.moisture, material.fibre_saturation);
  const double m1 = std::min(end.moisture, material.fibre_saturation);
  step.strained_gain = std::expm1(-material.swelling_strain_factor * (m1 - m0));
  const double change = std::abs(m1 - m0), travel = std::max(change, end.travel);
  if (travel == 0)
    return;
  for (unsigned j = 0; j < sorptives; ++j) {
    const ExponentialStep e = exponential_step(travel / material.sorptive_moisture[j]);
    step.sorptive_decay[j] = e.decay;
    step.sorptive_weight0[j] = e.weight0;
    step.sorptive_weight1[j] = e.weight1;
    step.elastic1 = add(step.elastic1, e.weight1, congruent(step.creep1, sorptive_root[j]));
    step.sorptive0 = add(step.sorptive0, e.weight0, congruent(step.creep0, sorptive_root[j]));
  }
  if (m1 < std::min(m0, begin.driest)) {
    // Share of the step gone by when moisture comes to the lowest one so far. Stress linear in it.
    const double gone = std::max(0., (m0 - begin.driest) / change);
    step.drying_weight0 = change * (1 - gone) * (1 - gone) / 2;
    step.drying_weight1 = change * (1 - gone * gone) / 2;
  }
  // What else was dried at some time within the step: at the mean stress.
  const double more = std::max(0., end.dried - step.drying_weight0 - step.drying_weight1);
  step.drying_weight0 += more / 2;
  step.drying_weight1 += more / 2;
  if (step.drying_weight1 == 0)
    return;
  step.elastic1 =
      add(step.elastic1, step.drying_weight1, congruent(step.creep1, sorptive_root[sorptives]));
  step.sorptive0 =
      add(step.sorptive0, step.drying_weight0, congruent(step.creep0, sorptive_root[sorptives]));
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
  for (unsigned j = 0; j < sorptives; ++j)
    for (unsigned a = 0; a < 6; ++a)
      strain[a] += step.sorptive_decay[j] * state.sorptive[j][a];
  for (unsigned a = 0; a < 6; ++a)
    strain[a] += sum * drive[a] + state.drying_set[a];
  strain[0] += state.strained_swelling;
  if (!step.moisture_moves)
    return strain;
  const Vector6 moved = step.sorptive0 * state.stress;
  for (unsigned a = 0; a < 6; ++a)
    strain[a] += moved[a];
  strain[0] += step.strained_gain * strain_along(state, step);
  return strain;
}

double WoodLaw::strain_along(const WoodState &state, const WoodStep &step) const
{
  const std::array<double, 6> &c = step.creep0.normal;
  const Vector6 &stress = state.stress;
  double strain =
      step.along0[0] * stress[0] + step.along0[1] * stress[1] + step.along0[2] * stress[2];
  strain += material.creep_instant * (c[0] * stress[0] + c[3] * stress[1] + c[4] * stress[2]);
  for (unsigned i = 0; i < elements; ++i)
    strain += state.kelvin[i][0] + state.irrecoverable[i][0];
  for (unsigned j = 0; j < sorptives; ++j)
    strain += state.sorptive[j][0];
  return strain + state.drying_set[0] + state.strained_swelling;
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
  // From the strain at the start: before the elements move.
  if (step.moisture_moves)
    state.strained_swelling += step.strained_gain * strain_along(state, step);
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
  if (step.moisture_moves)
    finish_sorptive(state, step, stress1);
  state.stress = stress1;
}

// J_s,j:sigma = root (creep:(root sigma)), the congruence without storing it.
Vector6 WoodLaw::sorptive_drive(unsigned j, const Compliance &creep, const Vector6 &stress) const
{
  Vector6 scaled;
  for (unsigned a = 0; a < 6; ++a)
    scaled[a] = sorptive_root[j][a] * stress[a];
  Vector6 drive = creep * scaled;
  for (unsigned a = 0; a < 6; ++a)
    drive[a] *= sorptive_root[j][a];
  return drive;
}

void WoodLaw::finish_sorptive(WoodState &state, const WoodStep &step, const Vector6 &stress1) const
{
  for (unsigned j = 0; j < sorptives; ++j) {
    const Vector6 drive0 = sorptive_drive(j, step.creep0, state.stress);
    const Vector6 drive1 = sorptive_drive(j, step.creep1, stress1);
    for (unsigned a = 0; a < 6; ++a)
      state.sorptive[j][a] = step.sorptive_decay[j] * state.sorptive[j][a] +
                             step.sorptive_weight0[j] * drive0[a] +
                             step.sorptive_weight1[j] * drive1[a];
  }
  if (step.drying_weight1 == 0)
    return;
  const Vector6 drive0 = sorptive_drive(sorptives, step.creep0, state.stress);
  const Vector6 drive1 = sorptive_drive(sorptives, step.creep1, stress1);
  for (unsigned a = 0; a < 6; ++a)
    state.drying_set[a] += step.drying_weight0 * drive0[a] + step.drying_weight1 * drive1[a];
}

void add_times(WoodState &state, double factor, const WoodState &other)
{
  const auto add = [factor](Vector6 &to, const Vector6 &what) {
    for (unsigned i = 0; i < to.size(); ++i)
      to[i] += factor * what[i];
  };
  add(state.stress, other.stress);
  for (unsigned e = 0; e < max_elements; ++e) {
    add(state.kelvin[e], other.kelvin[e]);
    add(state.irrecoverable[e], other.irrecoverable[e]);
  }
  for (unsigned e = 0; e < max_sorptive; ++e)
    add(state.sorptive[e], other.sorptive[e]);
  add(state.drying_set, other.drying_set);
  state.strained_swelling += factor * other.strained_swelling;
}
} // namespace overbend::materials
