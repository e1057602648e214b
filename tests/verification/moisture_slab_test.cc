// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/report.h"
#include "tests/verification/moisture_block.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

// Sorption of a slab and the order of the method in time and space. Half a slab of 10 mm, its
// middle plane sealed.
namespace overbend::tests
{
namespace
{
constexpr double D = 1e-10, half = 5e-3, day = 86400;

Block half_slab(unsigned down)
{
  Block block;
  block.depth = half;
  block.down = down;
  return block;
}

// Share of the final uptake, Crank 1975, The Mathematics of Diffusion, Eq. 4.18 (from memory).
double crank(double fourier)
{
  const double pi = std::acos(-1.);
  double sum = 0;
  for (unsigned n = 0; n < 200; ++n)
    sum += std::exp(-std::pow((2 * n + 1) * pi / 2, 2) * fourier) / std::pow(2 * n + 1, 2);
  return 1 - 8 / (pi * pi) * sum;
}

// Moisture at the sealed plane after `time` with surface emission S: series of Crank Eq. 4.50,
//   1 - sum 2 L cos(0)/((b^2 + L^2 + L) cos b) exp(-b^2 Fo),  b tan b = L = S l/D.
double middle_with_film(double L, double fourier)
{
  const double pi = std::acos(-1.);
  double sum = 0;
  for (unsigned n = 0; n < 60; ++n) {
    double low = n * pi + 1e-12, high = n * pi + pi / 2 - 1e-12;
    for (unsigned i = 0; i < 200; ++i) {
      const double b = (low + high) / 2;
      (b * std::tan(b) > L ? high : low) = b;
    }
    const double b = (low + high) / 2;
    sum += 2 * L / ((b * b + L * L + L) * std::cos(b)) * std::exp(-b * b * fourier);
  }
  return 1 - sum;
}

// Moisture content at the sealed plane after n equal steps, slab from 0.08 to air of 0.12.
double middle_after(unsigned cells, unsigned steps, double time, double emission,
                    const materials::Wood &wood)
{
  const solver::Model model = make_wet_block(half_slab(cells), wood);
  const materials::Finish finish = emitting(emission);
  solver::MoistureSystem system(model, one_open_face(finish));
  solver::MoistureStepper stepper(system, constant_air(system, 0.12),
                                  std::vector<double>(system.size(), 0.08), 0, 0);
  for (unsigned i = 0; i < steps; ++i)
    stepper.accept(stepper.try_step(time / steps), time / steps);
  return solver::find_point(model.space, {model.space.position[0][0], 0, -half})
      .value(stepper.moisture());
}
} // namespace

TEST(MoistSlab, TakesUpWaterAsCrankSays)
{
  const solver::Model model = make_wet_block(half_slab(8), with_diffusion(D));
  const materials::Finish finish = emitting(at_rest);
  solver::MoistureSystem system(model, one_open_face(finish));
  const std::vector<double> even(system.size(), 0.08);
  std::vector<double> start = even; // but for the surface, which is at rest with the air at once
  for (const auto &point : system.surface())
    start[point.node] = 0.12;
  solver::MoistureStepper stepper(system, constant_air(system, 0.12), start, 0);
  const double before = system.water(even),
               all = system.water(std::vector<double>(system.size(), 0.12)) - before;
  // Printed values of the same series.
  const double days[4] = {0.1, 1, 3, 10}, printed[4] = {0.20977, 0.65445, 0.93723, 0.99984};
  for (unsigned k = 0; k < 4; ++k) {
    run_moisture(stepper, days[k] * day - stepper.time(), {1, 1e6, 1e-4});
    const double share = (system.water(stepper.moisture()) - before) / all;
    EXPECT_NEAR(crank(D * days[k] * day / (half * half)), printed[k], 1e-5);
    report("Sorption of a slab, 10 mm, D 1e-10 m2/s",
           "share of uptake after " + std::to_string(days[k]).substr(0, 4) + " d",
           "Crank 1975 (from memory)", printed[k], share, 0.01 * printed[k]);
    EXPECT_NEAR(share / printed[k], 1, 0.01);
  }
}

TEST(MoistSlab, WithAFilmItsMiddleFollowsTheSeriesToTheSecondOrderInTime)
{
  const double emission = 4e-8, L = emission * half / D, time = 2 * day;
  const double exact = 0.08 + 0.04 * middle_with_film(L, D * time / (half * half));
  double error[3];
  for (unsigned k = 0; k < 3; ++k)
    error[k] = middle_after(8, 4u << k, time, emission, with_diffusion(D)) - exact;
  for (unsigned k = 0; k < 2; ++k) {
    const double order = std::log2(std::abs(error[k] / error[k + 1]));
    report("Slab with a film, steps halved", "order in time", "series of Crank 1975", 2, order,
           0.3);
    EXPECT_NEAR(order, 2, 0.3) << error[k] << " " << error[k + 1];
  }
}

// The same with D that grows eight times from dry to damp: the coefficients of the middle of the
// step keep the order. Differences of halved steps, no closed form.
TEST(MoistSlab, WithDiffusionThatFollowsMoistureTheOrderInTimeStaysTwo)
{
  materials::Wood wood = with_diffusion(D);
  wood.diffusion_slope = 13.4;
  double value[4];
  for (unsigned k = 0; k < 4; ++k)
    value[k] = middle_after(4, 8u << k, 2 * day, 4e-8, wood);
  const double order = std::log2((value[1] - value[0]) / (value[2] - value[1])),
               next = std::log2((value[2] - value[1]) / (value[3] - value[2]));
  report("Slab, D by moisture, steps halved", "order in time", "differences of halved steps", 2,
         next, 0.4);
  EXPECT_GT(order, 1.5);
  EXPECT_NEAR(next, 2, 0.4);
}

TEST(MoistSlab, TheErrorOfTheMeshFallsAtLeastWithTheThirdPower)
{
  const double emission = 4e-7, L = emission * half / D, time = 0.2 * day;
  const double exact = 0.08 + 0.04 * middle_with_film(L, D * time / (half * half));
  double error[3];
  for (unsigned k = 0; k < 3; ++k)
    error[k] = std::abs(middle_after(1u << k, 3000, time, emission, with_diffusion(D)) - exact);
  const double order = std::log2(error[1] / error[2]);
  report("Slab with a film, cells halved", "order in space (at least 3)", "series of Crank 1975", 3,
         std::min(order, 3.), 0.3);
  EXPECT_GT(order, 2.7) << error[0] << " " << error[1] << " " << error[2];
}
} // namespace overbend::tests
