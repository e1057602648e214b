// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <chrono>
#include <cstddef>
#include <cstdio>
#include <string>

namespace overbend::solver
{
// Where a run is.
struct ProgressState
{
  std::string work; // what is being done, and for which phase
  double done = 0;  // share of the work done, 0..1
};

// The line: what is being done, percent, time left: "trial runs, heat: 23 %, about 4 min left".
// `elapsed` is the time the program has run, s; the time left is elapsed (1 - done)/done, rounded
// up to minutes and given once 2 % are done. Cut to `width` characters.
std::string progress_line(const ProgressState &state, double elapsed, std::size_t width);

// One line on a terminal, written over itself at most ten times a second; nothing at all where the
// output is no terminal.
class ProgressLine
{
public:
  // The line goes to the standard error, so that the standard output can be kept.
  ProgressLine();
  ProgressLine(std::FILE *out, bool on_terminal, std::size_t width);
  ~ProgressLine() { clear(); }
  ProgressLine(const ProgressLine &) = delete;
  ProgressLine &operator=(const ProgressLine &) = delete;

  void update(const ProgressState &state);

  // Takes the line away, so that something else can be printed in its place.
  void clear();

private:
  using Clock = std::chrono::steady_clock;
  std::FILE *out_;
  bool on_terminal_;
  std::size_t width_;
  Clock::time_point start_ = Clock::now();
  Clock::time_point last_{};
  bool shown_ = false;
};
} // namespace overbend::solver
