// SPDX-License-Identifier: GPL-3.0-or-later
#include "materials/tables.h"
#include "tests/law/point.h"

#include <vector>

namespace overbend::tests
{
namespace
{
constexpr double room = materials::reference_temperature;

materials::Wood chain(std::vector<double> time, std::vector<double> share, double modulus)
{
  materials::Wood wood = plain_wood(modulus);
  wood.creep_time = std::move(time);
  wood.creep_share = std::move(share);
  return wood;
}

materials::Wood two_elements()
{
  return chain({3600, 86400}, {0.05, 0.08}, 12000 * MPa);
}
} // namespace

// Source: Boltzmann superposition for J0 (1 + sum g (1 - e^-t/tau)), worked by hand formula.
TEST(Creep, KelvinChainCreepsAndRecoversAsBoltzmannSays)
{
  const std::string what = "Kelvin chain, creep and recovery", source = "Boltzmann superposition";
  const double tolerance = 1e-9;
  Bar bar(two_elements());
  expect(what, "strain at once", source, 8.33333e-4, bar.stress(10 * MPa, 0, room, room),
         tolerance);
  expect(what, "after 1 h", source, 8.62392e-4, bar.stress(10 * MPa, hour, room, room), tolerance);
  expect(what, "after 24 h", source, 9.17141e-4, bar.stress(10 * MPa, 23 * hour, room, room),
         tolerance);
  expect(what, "unloaded at 24 h", source, 8.38080e-5, bar.stress(0, 0, room, room), tolerance);
  expect(what, "1 h later", source, 5.57499e-5, bar.stress(0, hour, room, room), tolerance);
  expect(what, "at 48 h", source, 1.55029e-5, bar.stress(0, 23 * hour, room, room), tolerance);
  expect(what, "at 240 h", source, 5.2e-9, bar.stress(0, 192 * hour, room, room), 0.1e-9);
}

// Source: standard linear solid, closed form: sigma = eps [E_inf + (E0 - E_inf) e^(-t/tau_r)].
TEST(Creep, ClampHoldReleaseFollowsTheStandardLinearSolid)
{
  const std::string what = "Clamp, hold, release", source = "standard linear solid, closed form";
  for (const double hold : {2 * hour, 12 * hour}) {
    Bar bar(chain({7200}, {0.12}, 12000 * MPa));
    double stress = bar.strain(1e-3, 0, room, room);
    const unsigned steps = static_cast<unsigned>(hold / 20);
    for (unsigned n = 0; n < steps; ++n)
      stress = bar.strain(1e-3, 20, room, room);
    const bool is_short = hold < 3 * hour;
    const std::string name = is_short ? "2 h" : "12 h";
    expect(what, "stress after " + name + ", MPa", source, is_short ? 11.133788 : 10.715837,
           stress / MPa, 1e-6);
    const double set = bar.stress(0, 0, room, room);
    expect(what, "set after " + name, source, is_short ? 7.21843e-5 : 1.07014e-4, set,
           is_short ? 1e-10 : 1e-9);
    if (is_short)
      expect(what, "set 2 h after release", source, 2.65551e-5, bar.stress(0, 2 * hour, room, room),
             1e-10);
  }
}

// Source: Morland and Lee 1960, xi = integral of a(T) dt; E_a 100 kJ/mol, worked by quadrature.
TEST(Creep, ReducedTimeRunsOverTheRampAsMorlandAndLeeSay)
{
  const std::string what = "Reduced time, ramp 20-48-20 degC", source = "Morland and Lee 1960";
  struct Leg
  {
    double time, from, to;
    unsigned steps;
    double xi, strain;
  };
  const Leg legs[] = {{1800, 20, 48, 400, 18302.9, 8.87469e-4},
                      {7200, 48, 48, 1, 275833.7, 9.38929e-4},
                      {3600, 48, 20, 400, 312439.4, 9.39874e-4},
                      {43200, 20, 20, 1, 355639.4, 9.40580e-4}};
  Bar bar(two_elements());
  bar.stress(10 * MPa, 0, room, room);
  double xi = 0, strain = 0;
  for (const Leg &leg : legs) {
    for (unsigned n = 0; n < leg.steps; ++n) {
      const double T0 = kelvin(leg.from + (leg.to - leg.from) * n / leg.steps);
      const double T1 = kelvin(leg.from + (leg.to - leg.from) * (n + 1) / leg.steps);
      const double dt = leg.time / leg.steps;
      // The decay of the slow element tells the reduced time of the step.
      xi -= 86400 * std::log(bar.law.prepare(T0, T1, dt, 0.12).decay[1]);
      strain = bar.stress(10 * MPa, dt, T0, T1);
    }
    expect(what, "reduced time to the end of the leg, s", source, leg.xi, xi, 0.1);
    expect(what, "strain at the end of the leg", source, leg.strain, strain, 1e-9);
  }
}

// Source: Arrhenius with 100 kJ/mol against 20 degC, table of the shift.
TEST(Creep, ShiftFollowsArrhenius)
{
  const Bar bar(plain_wood(12000 * MPa));
  const double degrees[] = {30, 40, 48, 50, 60}, shift[] = {3.87, 13.7, 35.8, 45.1, 138};
  for (unsigned n = 0; n < 5; ++n)
    expect("Shift of creep, 100 kJ/mol", "at " + std::to_string(int(degrees[n])) + " degC",
           "Arrhenius", shift[n], bar.law.shift(kelvin(degrees[n])), 0.005 * shift[n]);
}

namespace
{
// Strain held 2 h at 48 degC and 12 h at 20 degC with the twelve-year chain of the tables, then
// free at 20 degC: share of the strain that stays at release and after the times given.
std::vector<double> kept_shares(double irrecoverable, const std::vector<double> &times)
{
  materials::Wood wood = materials::tables().wood("sugar maple");
  wood.irrecoverable_share = irrecoverable;
  wood.drop_along = 0; // the worked value has no drop of the modulus
  wood.expansion = {0, 0, 0};
  Bar bar(wood);
  const double held = 1e-3;
  bar.strain(held, 0, kelvin(48), kelvin(48));
  for (const auto &[temperature, hold] : {std::pair(48., 2 * hour), std::pair(20., 12 * hour)}) {
    double before = 0;
    for (double t = 1; before < hold; t *= 1.05) {
      const double now = std::min(t, hold);
      bar.strain(held, now - before, kelvin(temperature), kelvin(temperature));
      before = now;
    }
  }
  std::vector<double> shares = {bar.stress(0, 0, room, room) / held};
  double before = 0;
  for (const double time : times) {
    shares.push_back(bar.stress(0, time - before, room, room) / held);
    before = time;
  }
  return shares;
}
} // namespace

// Source: the one-sided law of irrecoverable creep, worked with the same chain by another program;
// the printed digits set the tolerance.
TEST(Creep, IrrecoverableShareKeepsHalfOfTheSet)
{
  const std::string what = "Set after 2 h at 48 degC and 12 h at 20 degC, % of the strain held";
  const std::string names[] = {"at release", "a day later", "a week later", "a year later"};
  const double without[] = {7.9, 2.7, 1.1, 0.06}, with[] = {8.0, 5.4, 4.6, 4.1};
  const std::vector<double> times = {day, 7 * day, 365.25 * day};
  const auto f0 = kept_shares(0, times), f5 = kept_shares(0.5, times);
  for (unsigned n = 0; n < 4; ++n) {
    expect(what, "f = 0, " + names[n], "one-sided law, worked independently", without[n],
           100 * f0[n], n == 3 ? 0.006 : 0.06);
    expect(what, "f = 0.5, " + names[n], "one-sided law, worked independently", with[n],
           100 * f5[n], 0.06);
  }
}

namespace
{
// Strain of a scalar chain under a smooth stress and temperature, by the classical Runge-Kutta
// method on its own equations: knows nothing of the law under test.
double chain_by_runge_kutta(double (*stress)(double), double (*temperature)(double), double end,
                            unsigned steps)
{
  const double J0 = 1 / (12000 * MPa), g[] = {0.05, 0.08}, tau[] = {3600, 86400};
  double strain[2] = {0, 0};
  const auto rate = [&](double t, unsigned i, double e) {
    const double a = std::exp(-100e3 / 8.314462618 * (1 / temperature(t) - 1 / 293.15));
    return a * (g[i] * J0 * stress(t) - e) / tau[i];
  };
  const double dt = end / steps;
  for (unsigned n = 0; n < steps; ++n)
    for (unsigned i = 0; i < 2; ++i) {
      const double t = n * dt, e = strain[i];
      const double k1 = rate(t, i, e), k2 = rate(t + dt / 2, i, e + dt / 2 * k1);
      const double k3 = rate(t + dt / 2, i, e + dt / 2 * k2), k4 = rate(t + dt, i, e + dt * k3);
      strain[i] += dt / 6 * (k1 + 2 * k2 + 2 * k3 + k4);
    }
  return J0 * stress(end) + strain[0] + strain[1];
}

double smooth_stress(double t)
{
  return 10 * MPa * std::sin(t / 5000 + 0.3);
}
double smooth_temperature(double t)
{
  return 293.15 + 28 * std::sin(t / 9000);
}
} // namespace

// Source: classical Runge-Kutta integration of the chain's equations.
TEST(Creep, ChainIsOfSecondOrderInTimeWithChangingTemperature)
{
  const double end = 14000;
  const double exact = chain_by_runge_kutta(smooth_stress, smooth_temperature, end, 20000);
  std::vector<double> errors;
  for (const unsigned steps : {16U, 32U, 64U, 128U}) {
    Bar bar(two_elements());
    bar.stress(smooth_stress(0), 0, room, room);
    double strain = 0;
    for (unsigned n = 0; n < steps; ++n) {
      const double t0 = end * n / steps, t1 = end * (n + 1) / steps;
      strain =
          bar.stress(smooth_stress(t1), t1 - t0, smooth_temperature(t0), smooth_temperature(t1));
    }
    errors.push_back(std::abs(strain - exact));
  }
  for (unsigned n = 1; n < errors.size(); ++n)
    expect("Order of the chain in time, temperature changing",
           "order, halving " + std::to_string(n), "Runge-Kutta, 20,000 steps", 2,
           std::log2(errors[n - 1] / errors[n]), 0.15);
}
} // namespace overbend::tests
