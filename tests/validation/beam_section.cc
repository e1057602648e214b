// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/validation/beam_section.h"

#include "materials/moisture_transport.h"
#include "materials/sorption.h"

#include <algorithm>
#include <numeric>

namespace overbend::tests
{
namespace
{
constexpr std::size_t layers = 24;
constexpr double day = 86400, year = 365.25 * day;

double mean(const std::vector<double> &values)
{
  return std::accumulate(values.begin(), values.end(), 0.) / double(values.size());
}

double yearly_moisture(const Air &air)
{
  double sum = 0;
  for (unsigned d = 0; d < 365; ++d) {
    const Weather w = air(d * day);
    sum += materials::equilibrium_moisture(w.temperature, w.humidity);
  }
  return sum / 365;
}

// Thomas' elimination; below, diagonal, above, right side.
void solve_tridiagonal(const std::vector<double> &a, std::vector<double> b,
                       const std::vector<double> &c, std::vector<double> &x)
{
  for (std::size_t i = 1; i < x.size(); ++i) {
    const double w = a[i] / b[i - 1];
    b[i] -= w * c[i - 1];
    x[i] -= w * x[i - 1];
  }
  x.back() /= b.back();
  for (std::size_t i = x.size() - 1; i-- > 0;)
    x[i] = (x[i] - c[i] * x[i + 1]) / b[i];
}
} // namespace

BeamSection::BeamSection(const materials::Wood &the_wood, double the_depth, Air the_air,
                         double start)
    : wood(the_wood), law(the_wood, 1, yearly_moisture(the_air)), depth(the_depth),
      layer(the_depth / layers), air(std::move(the_air)), now(start - 3 * year),
      moisture(layers, yearly_moisture(air)), temperature_of_wood(air(start).temperature),
      state(layers)
{
  while (now < start - day / 2)
    move_water(now + day);
  moisture_of_wood = moisture;
}

double BeamSection::height(std::size_t i) const
{
  return (double(i) + 0.5) * layer - depth / 2;
}

// Finite volumes, implicit.
void BeamSection::move_water(double to)
{
  const Weather w = air(to);
  const double dt = to - now, T = w.temperature;
  const double rest = materials::equilibrium_moisture(T, w.humidity);
  std::vector<double> below(layers, 0.), diagonal(layers, 1.), above(layers, 0.);
  const std::vector<double> m = moisture;
  for (std::size_t i = 0; i + 1 < layers; ++i) {
    const double flow =
        materials::diffusion_across(wood, T, (m[i] + m[i + 1]) / 2) * dt / (layer * layer);
    diagonal[i] += flow;
    diagonal[i + 1] += flow;
    above[i] = below[i + 1] = -flow;
  }
  const materials::Finish &bare = materials::tables().finish("bare");
  for (const std::size_t face : {std::size_t(0), layers - 1}) {
    const double film =
        1 / materials::surface_emission(bare, materials::FilmCondition::sound, T, m[face]);
    const double half = layer / 2 / materials::diffusion_across(wood, T, m[face]);
    const double flow = dt / layer / (film + half);
    diagonal[face] += flow;
    moisture[face] += flow * rest;
  }
  solve_tridiagonal(below, diagonal, above, moisture);
  now = to;
}

// Strain e + k z; its stress has no resultant and the moment is held. The irrecoverable parts that
// work are found by repetition.
void BeamSection::move_wood(double time)
{
  const double T = air(now).temperature;
  std::vector<materials::WoodStep> step;
  std::vector<materials::Vector6> stress;
  std::vector<materials::ActiveElements> active;
  for (std::size_t i = 0; i < layers; ++i) {
    step.push_back(law.prepare({temperature_of_wood, moisture_of_wood[i]}, {T, moisture[i]}, time));
    stress.push_back(state[i].stress);
    active.push_back(law.active(state[i], step[i], stress[i]));
  }
  for (unsigned round = 0; round < 8; ++round) {
    double EA = 0, ES = 0, EI = 0, N = 0, M = moment;
    std::vector<double> modulus(layers), history(layers);
    for (std::size_t i = 0; i < layers; ++i) {
      const double z = height(i);
      modulus[i] = 1 / law.tangent(step[i], active[i]).normal[0];
      history[i] = law.history(state[i], step[i], active[i])[0];
      EA += modulus[i] * layer;
      ES += modulus[i] * layer * z;
      EI += modulus[i] * layer * z * z;
      N += modulus[i] * layer * history[i];
      M += modulus[i] * layer * history[i] * z;
    }
    const double strain = (N * EI - ES * M) / (EA * EI - ES * ES);
    bend = (EA * M - ES * N) / (EA * EI - ES * ES);
    for (std::size_t i = 0; i < layers; ++i) {
      stress[i][0] = modulus[i] * (strain + bend * height(i) - history[i]);
      active[i] = law.active(state[i], step[i], stress[i]);
    }
  }
  for (std::size_t i = 0; i < layers; ++i)
    law.finish(state[i], step[i], active[i], stress[i]);
  temperature_of_wood = T;
  moisture_of_wood = moisture;
}

void BeamSection::load(double stress)
{
  moment = stress * depth * depth / 6;
  move_wood(0);
}

void BeamSection::follow(double time)
{
  for (double gone = 0; gone < time; gone += 5 * day) {
    for (unsigned d = 0; d < 5; ++d)
      move_water(now + day);
    move_wood(5 * day);
    driest = std::min(driest, mean(moisture));
    dampest = std::max(dampest, mean(moisture));
  }
}
} // namespace overbend::tests
