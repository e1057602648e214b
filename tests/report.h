// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstdio>
#include <cstdlib>
#include <string>

namespace overbend::tests
{
// Adds one row to the table of checks (tests/run gathers it): what was checked, which quantity,
// the source of the expected value, expected and computed value, and the tolerance on their
// difference. Only writes when the environment names a file in OVERBEND_TABLE.
inline void report(const std::string &what, const std::string &quantity, const std::string &source,
                   double expected, double got, double tolerance)
{
  std::printf("%s | %s | expected %.6g | got %.6g | tolerance %.3g | %s\n", what.c_str(),
              quantity.c_str(), expected, got, tolerance, source.c_str());
  const char *path = std::getenv("OVERBEND_TABLE");
  if (path == nullptr)
    return;
  std::FILE *file = std::fopen(path, "a");
  if (file == nullptr)
    return;
  std::fprintf(file, "| %s | %s | %s | %.6g | %.6g | %.2g | %.2g |\n", what.c_str(),
               quantity.c_str(), source.c_str(), expected, got, got - expected, tolerance);
  std::fclose(file);
}
} // namespace overbend::tests
