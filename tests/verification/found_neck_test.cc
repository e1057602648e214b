// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/read/read_case.h"
#include "tests/verification/guard_neck.h"

#include <gtest/gtest.h>

#include <cmath>
#include <iostream>

// A neck found after an afternoon in a hot van (cases/hot-van.toml), with the water in its wood.
namespace overbend::tests
{
namespace
{
cases::Case hot_van(cases::KeptIn kept_in)
{
  cases::Case c = cases::read_case(OVERBEND_SOURCE_DIR "/cases/hot-van.toml");
  c.numerics.resolution = 0.5;
  c.warp.kept_in = kept_in;
  c.room.humidity = 0.7; // damp before, so that the dry air of the van has water to take
  c.found.bow_bass = c.found.bow_centre = c.found.bow_treble = 0.3e-3; // within what it explains
  return c;
}

solver::FoundNeck found(cases::KeptIn kept_in)
{
  GuardNeck neck(hot_van(kept_in));
  auto &work = neck.work;
  return solver::find_start(work.neck(), work.found_strings,
                            solver::starting_moisture(work.model, neck.c));
}

const solver::FoundNeck &found_in_the_open() // made once
{
  static const solver::FoundNeck neck = found(cases::KeptIn::open_air);
  return neck;
}

// Largest strain (of swelling while strained) that the histories left in the wood.
double largest_strained_swelling(const solver::MechanicsState &state)
{
  double largest = 0;
  for (const auto &point : state.wood)
    largest = std::max(largest, std::abs(point.strained_swelling));
  return largest;
}
} // namespace

// The histories are superposed with every strain that they left: what is reached is what they were
// scaled to, and nothing is put down to how the neck was built but what the board does at the nut
// once the parts are put together.
TEST(FoundNeck, AfterAHotStoreInTheOpenIsExplainedByIt)
{
  const solver::FoundNeck &start = found_in_the_open();
  const solver::Diagnosis &d = start.diagnosis;
  std::cout << "as built: bass " << 1e3 * d.as_built.bow_bass << ", centre " << 1e3 * d.as_built.bow
            << " mm, severity " << d.severity << "\n";
  EXPECT_LT(d.severity, 1);
  EXPECT_LT(std::abs(d.as_built.bow), 1e-6) << "a thousandth of a millimetre";
  EXPECT_GT(largest_strained_swelling(start.progress.state), 1e-7) << "it dried under its strings";
}

TEST(FoundNeck, InItsCaseTheWoodKeepsItsWaterAndTheLineSlipsMore)
{
  const solver::FoundNeck &in_the_open = found_in_the_open(),
                          in_its_case = found(cases::KeptIn::closed_case);
  std::cout << "severity for the same bow: open " << in_the_open.diagnosis.severity << ", case "
            << in_its_case.diagnosis.severity << "\n";
  EXPECT_EQ(largest_strained_swelling(in_its_case.progress.state), 0);
  EXPECT_NE(in_its_case.diagnosis.severity, in_the_open.diagnosis.severity);
}
} // namespace overbend::tests
