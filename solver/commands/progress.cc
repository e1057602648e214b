// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/commands/progress.h"

#include <algorithm>
#include <cmath>

#include <sys/ioctl.h>
#include <unistd.h>

namespace overbend::solver
{
namespace
{
constexpr std::size_t usual_width = 80;
// Written over at most this often.
constexpr std::chrono::milliseconds pause(100);

std::size_t terminal_width()
{
  winsize size = {};
  if (ioctl(STDERR_FILENO, TIOCGWINSZ, &size) != 0 || size.ws_col == 0)
    return usual_width;
  return size.ws_col;
}

// Bytes that continue a character of UTF-8 take no room on the screen.
bool continues_character(char c)
{
  return (static_cast<unsigned char>(c) & 0xC0) == 0x80;
}

std::string cut(const std::string &text, std::size_t width)
{
  std::size_t shown = 0, end = 0;
  while (end < text.size() && (shown < width || continues_character(text[end])))
    shown += continues_character(text[end++]) ? 0 : 1;
  return text.substr(0, end);
}
} // namespace

std::string progress_line(const ProgressState &state, double elapsed, std::size_t width)
{
  constexpr double enough_to_judge = 0.02;
  const double done = std::clamp(state.done, 0., 1.);
  std::string line = state.work + ": " + std::to_string(static_cast<int>(100 * done)) + " %";
  if (done >= enough_to_judge) {
    const long minutes = std::lround(std::ceil(elapsed * (1 - done) / done / 60));
    line += ", about " + std::to_string(std::max(1L, minutes)) + " min left";
  }
  return cut(line, width);
}

ProgressLine::ProgressLine() : ProgressLine(stderr, isatty(STDERR_FILENO) == 1, terminal_width()) {}

ProgressLine::ProgressLine(std::FILE *out, bool on_terminal, std::size_t width)
    : out_(out), on_terminal_(on_terminal), width_(width)
{}

void ProgressLine::update(const ProgressState &state)
{
  const Clock::time_point now = Clock::now();
  if (!on_terminal_ || (shown_ && now - last_ < pause))
    return;
  last_ = now;
  shown_ = true;
  const double elapsed = std::chrono::duration<double>(now - start_).count();
  // To the start of the line, clear it, write; the last column stays free, or some terminals wrap.
  std::fprintf(out_, "\r\033[K%s", progress_line(state, elapsed, width_ - 1).c_str());
  std::fflush(out_);
}

void ProgressLine::clear()
{
  if (!shown_)
    return;
  std::fprintf(out_, "\r\033[K");
  std::fflush(out_);
  shown_ = false;
}
} // namespace overbend::solver
