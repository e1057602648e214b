// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "tests/law/point.h"

#include <algorithm>
#include <random>

// A point of wood whose moisture moves, and what its energy and strain are.
namespace overbend::tests
{
using materials::Vector6;

inline Vector6 scaled(double factor, const Vector6 &a)
{
  Vector6 b = a;
  for (double &value : b)
    value *= factor;
  return b;
}

inline Vector6 sum(const Vector6 &a, double factor, const Vector6 &b)
{
  Vector6 c = a;
  for (unsigned i = 0; i < 6; ++i)
    c[i] += factor * b[i];
  return c;
}

// The wood of the tables with its mechano-sorption and set only: no creep in time, moduli that do
// not change, no coupling, swelling alike in strained wood.
inline materials::Wood only_mechano_sorptive()
{
  materials::Wood wood = materials::tables().wood("sugar maple");
  wood.creep_time.clear();
  wood.creep_share.clear();
  wood.creep_instant = 0;
  wood.modulus_green_ratio = 1;
  wood.swelling_strain_factor = 0;
  wood.nu_LR = wood.nu_LT = wood.nu_RT = 0;
  return wood;
}

class DampPoint
{
public:
  explicit DampPoint(const materials::Wood &wood) : law(wood) {}

  // At once, at a moisture content.
  void load(const Vector6 &stress, double at)
  {
    moisture = at;
    step(at, 0, stress);
  }
  void rest(double time) { step(moisture, time, state.stress); }
  void move(double to) { step(to, 0, state.stress); }
  void move(double to, const Vector6 &stress) { step(to, 0, stress); }

  materials::WoodLaw law;
  materials::WoodState state;
  double moisture = 0.12, driest = 0;

private:
  void step(double to, double time, const Vector6 &stress)
  {
    const auto s = law.prepare({kelvin(20), moisture, driest}, {kelvin(20), to}, time);
    law.finish(state, s, law.active(state, s, stress), stress);
    moisture = to;
    driest = std::min(driest, to);
  }
};

// Strain from the state itself, the way the law is defined, without free strain.
inline Vector6 total_strain(const materials::WoodLaw &law, const materials::WoodState &state,
                            double temperature = kelvin(20), double moisture = 0.12)
{
  Vector6 strain = law.prepare(temperature, temperature, 0, moisture).elastic1 * state.stress;
  for (const auto *group : {&state.kelvin, &state.irrecoverable})
    for (const Vector6 &element : *group)
      strain = sum(strain, 1, element);
  for (const Vector6 &element : state.sorptive)
    strain = sum(strain, 1, element);
  strain[0] += state.strained_swelling;
  return sum(strain, 1, state.drying_set);
}

// Springs of the wood and of its mechano-sorptive elements; set stores nothing.
inline double stored_energy(const materials::Wood &wood, const materials::WoodLaw &law,
                            const materials::WoodState &state)
{
  const materials::Compliance s = law.elastic(kelvin(20), 0.12);
  double energy = 0;
  for (unsigned a = 0; a < 6; ++a) {
    const double compliance = a < 3 ? s.normal[a] : s.shear[a - 3];
    energy += 0.5 * compliance * state.stress[a] * state.stress[a];
    for (unsigned j = 0; j < wood.sorptive_share.size(); ++j)
      if (const double share = wood.sorptive_share[j][a]; share > 0)
        energy += 0.5 * state.sorptive[j][a] * state.sorptive[j][a] / (share * compliance);
  }
  return energy;
}

inline Vector6 random_stress(std::mt19937 &random)
{
  std::normal_distribution<double> along(0, 20 * MPa), across(0, 2 * MPa);
  return {along(random),  across(random), across(random),
          across(random), across(random), across(random)};
}

inline materials::WoodState random_damp_state(const materials::WoodLaw &law, std::mt19937 &random)
{
  std::uniform_real_distribution<double> moisture(0.04, 0.22);
  materials::WoodState state;
  double m = 0.12;
  for (const double dt : {0., 600., 7200., 1e6}) {
    const double next = moisture(random);
    const auto step = law.prepare({kelvin(30), m, 0.1}, {kelvin(45), next}, dt);
    const Vector6 stress1 = random_stress(random);
    law.finish(state, step, law.active(state, step, stress1), stress1);
    m = next;
  }
  return state;
}

// Strain after a step from the state it leaves: elastic part at the end, elements, free strain.
inline Vector6 strain_after(const materials::WoodLaw &law, materials::WoodState state,
                            const materials::WoodStep &step, materials::ActiveElements active,
                            const Vector6 &stress1)
{
  law.finish(state, step, active, stress1);
  const materials::Wood &wood = law.wood();
  Vector6 strain_of_elements = total_strain(law, state);
  // The elastic part of 20 degC and 12 % out, that of the end in: S from the creep compliance.
  strain_of_elements = sum(strain_of_elements, -1,
                           law.prepare(kelvin(20), kelvin(20), 0, 0.12).elastic1 * state.stress);
  Vector6 unroot;
  for (unsigned a = 0; a < 6; ++a)
    unroot[a] = 1 / std::sqrt(wood.creep_ratio[a]);
  const materials::Compliance s = congruent(step.creep1, unroot);
  Vector6 strain = sum(strain_of_elements, 1, s * state.stress);
  strain = sum(strain, wood.creep_instant, step.creep1 * state.stress);
  return sum(strain, 1, step.free_strain1);
}

inline materials::WoodState sum(const materials::WoodState &a, double factor,
                                const materials::WoodState &b)
{
  materials::WoodState c = a;
  materials::add_times(c, factor, b);
  return c;
}
} // namespace overbend::tests
