// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "tests/report.h"

#include <gtest/gtest.h>

#include <cmath>
#include <string>

namespace overbend::tests
{
// Rows of predicted against measured where the law is not expected to meet all of them. Each row is
// reported with the tolerance that was stated beforehand and is called MISS if it lies outside.
// What is expected of a row is the wider bound really claimed; and the number of misses is expected
// to be the known one, so that a new miss, or one that has gone, is seen.
class Claims
{
public:
  Claims(std::string what_is_checked, std::string where_from)
      : what(std::move(what_is_checked)), source(std::move(where_from))
  {}

  void check(const std::string &quantity, double expected, double got, double stated,
             double claimed)
  {
    const bool is_missed = !(std::abs(got - expected) <= stated);
    rows += 1;
    misses += is_missed ? 1 : 0;
    report(what, (is_missed ? "MISS: " : "") + quantity, source, expected, got, stated);
    EXPECT_NEAR(got, expected, claimed) << what << ", " << quantity;
  }

  void expect_misses(unsigned known) const
  {
    EXPECT_EQ(misses, known) << what << ": " << misses << " of " << rows
                             << " rows miss the tolerance stated";
  }

private:
  std::string what, source;
  unsigned rows = 0, misses = 0;
};
} // namespace overbend::tests
