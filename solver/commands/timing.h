// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <chrono>
#include <string>
#include <vector>

// Named timers for --timing. Wall time; for the main thread only.
namespace overbend::solver
{
class Timers
{
public:
  struct Entry
  {
    std::string name;
    int calls = 0;
    double total = 0, longest = 0; // s
  };

  // Times from here to the end of the block: `auto timed = timers().time("factorisation");`
  class Scope
  {
  public:
    Scope(Timers &timers, std::string name) : timers_(timers), name_(std::move(name)) {}
    ~Scope() { timers_.add(name_, std::chrono::duration<double>(Clock::now() - start_).count()); }
    Scope(const Scope &) = delete;
    Scope &operator=(const Scope &) = delete;

  private:
    using Clock = std::chrono::steady_clock;
    Timers &timers_;
    std::string name_;
    Clock::time_point start_ = Clock::now();
  };

  [[nodiscard]] Scope time(std::string name) { return Scope(*this, std::move(name)); }
  void add(const std::string &name, double seconds);

  // In the order in which they were first used.
  const std::vector<Entry> &entries() const { return entries_; }

  // A table: name, calls, total, mean and longest in s; below it the peak memory of the process.
  std::string table() const;

private:
  std::vector<Entry> entries_;
};

// The timers of the program.
Timers &timers();

// Largest resident memory of the process so far, MiB.
double peak_memory();
} // namespace overbend::solver
