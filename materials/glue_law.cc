// SPDX-License-Identifier: GPL-3.0-or-later
#include "materials/glue_law.h"

#include "materials/exponential_step.h"
#include "materials/sorption.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>

namespace overbend::materials
{
namespace
{
constexpr double gas_constant = 8.314462618; // J/(mol K), CODATA 2018

double animal_softening(const Glue &glue, double humidity)
{
  // Water in the glue is linear between and beyond the two humidities of the table.
  const double h = std::clamp(humidity, 0.10, 0.95);
  const double w = glue.water_at_45 + (glue.water_at_70 - glue.water_at_45) * (h - 0.45) / 0.25;
  const double kw = glue.gordon_taylor * w;
  return ((1 - w) * glue.dry_softening + kw * glue.water_softening) / (1 - w + kw) +
         glue.softening_shift;
}

// Where the shift is 0 for a line that has a temperature: the softening temperature that goes with
// the humidity it has there.
double softening_at(const Glue &glue, double humidity, double temperature)
{
  if (glue.animal)
    return animal_softening(glue, humidity);
  if (glue.softening_slope == 0)
    return glue.softening + glue.softening_shift;
  return glue.softening + glue.softening_shift +
         glue.softening_slope * (held_humidity(humidity, temperature) - 0.5);
}

// held_humidity() at even steps of humidity and temperature.
struct HeldHumidity
{
  static constexpr unsigned n_humidity = 100, n_temperature = 36;
  static constexpr double coldest = 233.15, step = 5; // K; 20 degC is one of the steps
  std::array<std::array<double, n_temperature + 1>, n_humidity + 1> value{};
  HeldHumidity()
  {
    for (unsigned i = 0; i <= n_humidity; ++i) {
      const double water = equilibrium_moisture(reference_temperature, i / double(n_humidity));
      for (unsigned k = 0; k <= n_temperature; ++k)
        value[i][k] = rest_humidity(coldest + step * k, water);
    }
  }
};
} // namespace

double held_humidity(double humidity, double temperature)
{
  static const HeldHumidity table;
  const double u = std::clamp(humidity, 0., 1.) * HeldHumidity::n_humidity;
  const double v = std::clamp((temperature - HeldHumidity::coldest) / HeldHumidity::step, 0.,
                              double(HeldHumidity::n_temperature));
  const unsigned i = std::min(HeldHumidity::n_humidity - 1, static_cast<unsigned>(u));
  const unsigned k = std::min(HeldHumidity::n_temperature - 1, static_cast<unsigned>(v));
  const auto along = [&](unsigned row) {
    const auto &h = table.value[row];
    return h[k] + (h[k + 1] - h[k]) * (v - k);
  };
  return along(i) + (along(i + 1) - along(i)) * (u - i);
}

double softening_temperature(const Glue &glue, double humidity)
{
  double softening = softening_at(glue, humidity, glue.softening);
  // Each round leaves a twentieth of what was missing: slope times dh/dT.
  for (unsigned round = 0; round < 12 && !glue.animal; ++round)
    softening = softening_at(glue, humidity, softening);
  return softening;
}

double glue_humidity(double wood_moisture, SorptionBranch branch)
{
  constexpr unsigned n = 300;
  constexpr double wettest = 0.30; // kg/kg, beyond it the air is saturated
  using Table = std::array<double, n + 1>;
  const auto tabulate = [](SorptionBranch of) {
    Table t{};
    for (unsigned i = 0; i <= n; ++i)
      t[i] = rest_humidity(reference_temperature, wettest * i / n, of);
    return t;
  };
  static const Table mean = tabulate(SorptionBranch::mean),
                     adsorption = tabulate(SorptionBranch::adsorption),
                     desorption = tabulate(SorptionBranch::desorption);
  const Table &table = branch == SorptionBranch::adsorption   ? adsorption
                       : branch == SorptionBranch::desorption ? desorption
                                                              : mean;
  const double place = std::clamp(wood_moisture, 0., wettest) / wettest * n;
  const unsigned i = std::min(n - 1, static_cast<unsigned>(place));
  return table[i] + (table[i + 1] - table[i]) * (place - i);
}

double bond_strength(const Glue &glue, double temperature)
{
  const double share = std::max(0., (temperature - reference_temperature) /
                                        (glue.strength_hot_temperature - reference_temperature));
  return std::max(0., glue.strength_cold + (glue.strength_hot - glue.strength_cold) * share);
}

GlueLaw::GlueLaw(const Glue &glue, double layer_thickness, double humidity)
    : material(glue), thickness(layer_thickness), rest_humidity(humidity),
      softening(materials::softening_temperature(glue, humidity)),
      branches(static_cast<unsigned>(glue.branch_time.size()))
{
  if (branches > max_branches || glue.branch_modulus.size() != branches)
    throw std::logic_error("GlueLaw: spectrum of " + glue.name + " has a wrong length");
  if (!(thickness > 0))
    throw std::logic_error("GlueLaw: the thickness of a glue line must be positive");
  for (double &time : material.branch_time)
    time *= glue.time_factor;
}

double GlueLaw::log_shift(double temperature) const
{
  return log_shift(temperature, rest_humidity);
}

double GlueLaw::log_shift(double temperature, double humidity) const
{
  const double softening_point = softening_at(material, humidity, temperature);
  const double dT = temperature - softening_point;
  if (dT > 0)
    return std::log(10.) * material.wlf_c1 * dT / (material.wlf_c2 + dT);
  return -material.activation_energy / gas_constant * (1 / temperature - 1 / softening_point);
}

GlueStep GlueLaw::prepare(double T0, double T1, double dt) const
{
  return prepare_shifted(log_shift(T0), log_shift(T1), dt);
}

GlueStep GlueLaw::prepare(const GlueClimate &begin, const GlueClimate &end, double dt) const
{
  return prepare_shifted(log_shift(begin.temperature, begin.humidity),
                         log_shift(end.temperature, end.humidity), dt);
}

GlueStep GlueLaw::prepare_shifted(double log_shift0, double log_shift1, double dt) const
{
  GlueStep step;
  const double dxi =
      dt == 0 ? 0 : dt * logarithmic_mean(std::exp(log_shift0), std::exp(log_shift1));
  step.stiffness = material.plateau / thickness;
  for (unsigned k = 0; k < branches; ++k) {
    const ExponentialStep e = exponential_step(dxi / material.branch_time[k]);
    step.decay[k] = e.decay;
    step.branch_stiffness[k] = material.branch_modulus[k] * e.phi1 / thickness;
    step.stiffness += step.branch_stiffness[k];
  }
  return step;
}

Vector2 GlueLaw::history(const GlueState &state, const GlueStep &step) const
{
  Vector2 tau{};
  for (unsigned k = 0; k < branches; ++k)
    for (unsigned a = 0; a < 2; ++a)
      tau[a] += step.decay[k] * state.branch[k][a] - step.branch_stiffness[k] * state.slip[a];
  return tau;
}

Vector2 GlueLaw::traction(const GlueState &state) const
{
  Vector2 tau{};
  for (unsigned a = 0; a < 2; ++a) {
    tau[a] = material.plateau / thickness * state.slip[a];
    for (unsigned k = 0; k < branches; ++k)
      tau[a] += state.branch[k][a];
  }
  return tau;
}

void GlueLaw::finish(GlueState &state, const GlueStep &step, const Vector2 &slip1) const
{
  for (unsigned k = 0; k < branches; ++k)
    for (unsigned a = 0; a < 2; ++a)
      state.branch[k][a] = step.decay[k] * state.branch[k][a] +
                           step.branch_stiffness[k] * (slip1[a] - state.slip[a]);
  state.slip = slip1;
}

double GlueLaw::glass_modulus() const
{
  double sum = material.plateau;
  for (const double modulus : material.branch_modulus)
    sum += modulus;
  return sum;
}

double GlueLaw::normal_stiffness() const
{
  return (material.bulk_modulus + 4. / 3 * glass_modulus()) / thickness;
}

double GlueLaw::relaxation_modulus(double temperature, double time) const
{
  return modulus_after(time * std::exp(log_shift(temperature)));
}

double GlueLaw::relaxation_modulus(const GlueClimate &climate, double time) const
{
  return modulus_after(time * std::exp(log_shift(climate.temperature, climate.humidity)));
}

double GlueLaw::modulus_after(double reduced_time) const
{
  double sum = material.plateau;
  for (unsigned k = 0; k < branches; ++k)
    sum += material.branch_modulus[k] * std::exp(-reduced_time / material.branch_time[k]);
  return sum;
}

bool GlueLaw::flows_within(double reduced_time) const
{
  double slowest = 0;
  for (const double time : material.branch_time)
    slowest = std::max(slowest, time);
  return slowest > 0 && reduced_time > 1e-3 * slowest;
}

double GlueLaw::softening_temperature() const
{
  return softening;
}

unsigned GlueLaw::n_branches() const
{
  return branches;
}

void add_times(GlueState &state, double factor, const GlueState &other)
{
  for (unsigned i = 0; i < 2; ++i) {
    state.slip[i] += factor * other.slip[i];
    for (unsigned b = 0; b < max_branches; ++b)
      state.branch[b][i] += factor * other.branch[b][i];
  }
}
} // namespace overbend::materials
