// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/commands/timing.h"

#include <algorithm>
#include <array>
#include <cstdio>

#include <sys/resource.h>

namespace overbend::solver
{
void Timers::add(const std::string &name, double seconds)
{
  auto entry = std::find_if(entries_.begin(), entries_.end(),
                            [&](const Entry &known) { return known.name == name; });
  if (entry == entries_.end())
    entry = entries_.insert(entries_.end(), {name, 0, 0, 0});
  ++entry->calls;
  entry->total += seconds;
  entry->longest = std::max(entry->longest, seconds);
}

std::string Timers::table() const
{
  std::array<char, 160> line;
  std::snprintf(line.data(), line.size(), "%-32s %8s %10s %10s %10s\n", "what", "times",
                "total [s]", "mean [s]", "longest [s]");
  std::string text = line.data();
  for (const Entry &entry : entries_) {
    std::snprintf(line.data(), line.size(), "%-32s %8d %10.3f %10.4f %10.4f\n", entry.name.c_str(),
                  entry.calls, entry.total, entry.total / entry.calls, entry.longest);
    text += line.data();
  }
  std::snprintf(line.data(), line.size(), "peak memory %.0f MiB\n", peak_memory());
  return text + line.data();
}

Timers &timers()
{
  static Timers all;
  return all;
}

double peak_memory()
{
  rusage usage = {};
  getrusage(RUSAGE_SELF, &usage);
  return static_cast<double>(usage.ru_maxrss) / 1024; // Linux counts in KiB
}
} // namespace overbend::solver
