// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/read/read_case.h"
#include "solver/strength/peaks.h"
#include "tests/report.h"
#include "tests/verification/plan_neck.h"

#include <gtest/gtest.h>

#include <cmath>

// Use of strength by the same take-up of the cords, cold, on coarse and fine meshes: it belongs to
// the neck and not to its cells. The mean over a cell, by which it went before, made the headstock
// root's 0.102, 0.154, 0.168 and 0.180 at resolution 0.5, 1, 1.4 and 2 of the scarfed neck.
namespace overbend::tests
{
namespace
{
using solver::Region;

cases::Case neck_case(const std::string &headstock)
{
  return cases::parse_case(R"(title = "strength"
preset = "electric"
[tuners]
layout = "both sides"
across = "66 mm"
[found]
bow = "0.5 mm"
)" + headstock,
                           "strength.toml");
}

const char *const scarfed = R"([shaft]
wood = "Honduras mahogany"
[headstock]
kind = "scarf"
angle = "14 deg"
thickness = "14 mm"
width = "76 mm"
scarf_start = "6 mm"
)";
const char *const flat = R"([headstock]
width = "76 mm"
)";

solver::RegionUse used(cases::Case c, double resolution)
{
  c.numerics.resolution = resolution;
  PlanNeck neck(std::move(c));
  const solver::Model &model = neck.work.model;
  const solver::MechanicsState start = solver::unstressed(model);
  solver::BenchSetup setup;
  solver::BenchOffsets offsets;
  for (const cases::Phase &phase : neck.c.phases)
    if (phase.cords) {
      neck.work.bench.change(phase, nullptr, start.displacement, 0, setup, offsets);
      break;
    }
  offsets.take_up = {5e-3, 5e-3};
  const std::vector<double> cold(model.space.n_nodes, materials::reference_temperature);
  neck.work.mechanics.begin(start, cold, cold, 0);
  std::vector<double> displacement = start.displacement;
  neck.work.mechanics.equilibrate(neck.work.bench.springs(setup, offsets, 0),
                                  neck.work.bench.load(setup), displacement);
  solver::MechanicsState end = start;
  neck.work.mechanics.finish(end, displacement);
  return solver::wood_use(model, neck.work.means, end, cold);
}

struct Settles
{
  Region region;
  double within; // share of the finest mesh's
};

void compare(const std::string &neck, const cases::Case &c, const std::vector<Settles> &regions)
{
  constexpr double finest = 1.4; // two and a half times the unknowns of the default
  const solver::RegionUse fine = used(c, finest);
  for (const double resolution : {0.5, 0.7, 1.}) {
    const solver::RegionUse coarse = used(c, resolution);
    for (const Settles &settles : regions) {
      const double share = coarse.at(settles.region).value / fine.at(settles.region).value;
      char what[120];
      std::snprintf(what, sizeof what, "%s, resolution %.1f against %.1f",
                    solver::name(settles.region), resolution, finest);
      report("Use of strength, " + neck, what, "same neck, finer mesh", 1, share, settles.within);
      EXPECT_NEAR(share, 1, settles.within) << what;
      EXPECT_GT(coarse.at(settles.region).value, 0.02) << what;
    }
  }
}
} // namespace

TEST(UseOfStrength, SettlesOnANeckWithAScarf)
{
  compare("scarfed neck", neck_case(scarfed),
          {{Region::headstock_root, 0.05}, {Region::shaft, 0.05}, {Region::board, 0.15}});
}

TEST(UseOfStrength, SettlesOnAFlatHeadstock)
{
  compare("flat headstock", neck_case(flat),
          {{Region::headstock_root, 0.05}, {Region::shaft, 0.05}, {Region::board, 0.15}});
}
} // namespace overbend::tests
