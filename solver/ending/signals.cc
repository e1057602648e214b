// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/ending/signals.h"

#include "solver/ending/sudden_end.h"

#include <fcntl.h>
#include <unistd.h>

#include <array>
#include <cerrno>
#include <csignal>
#include <string>
#include <system_error>
#include <thread>

namespace overbend::solver
{
namespace
{
struct Ending
{
  int signal;
  const char *words;
};

constexpr std::array<Ending, 3> endings = {{{SIGINT, "the signal INT (Ctrl-C)"},
                                            {SIGTERM, "the signal TERM"},
                                            {SIGHUP, "the signal HUP (its terminal was closed)"}}};

// A handler may do next to nothing: it wakes a thread that may do everything.
int to_thread = -1;

void wake_thread(int signal)
{
  const int error = errno;
  const auto number = static_cast<unsigned char>(signal);
  [[maybe_unused]] const ssize_t wrote = write(to_thread, &number, 1);
  errno = error;
}

std::string words_of(int signal)
{
  for (const Ending &one : endings)
    if (one.signal == signal)
      return one.words;
  return "a signal";
}

void say(const std::string &sentence)
{
  // A progress line may stand there.
  const std::string text = (isatty(STDERR_FILENO) == 1 ? "\r\033[K" : "") + sentence + "\n";
  [[maybe_unused]] const ssize_t wrote = write(STDERR_FILENO, text.data(), text.size());
}

void wait_for_signal(int from_handler)
{
  unsigned char signal = 0;
  ssize_t got = 0;
  do
    got = read(from_handler, &signal, 1);
  while (got < 0 && errno == EINTR);
  if (got != 1)
    return;
  const std::string reason = "stopped by " + words_of(signal);
  const std::string left = end_suddenly(reason);
  say("Overbend was " + reason + ": " +
      (left.empty() ? "its work is not done, and no half-written file is left" : left));
  _exit(128 + signal);
}

void handle(int signal)
{
  struct sigaction before = {};
  if (sigaction(signal, nullptr, &before) != 0 || before.sa_handler == SIG_IGN)
    return;
  struct sigaction now = {};
  now.sa_handler = wake_thread;
  now.sa_flags = SA_RESTART | static_cast<int>(SA_RESETHAND);
  sigaction(signal, &now, nullptr);
}
} // namespace

void end_tidily_on_signals()
{
  std::signal(SIGXFSZ, SIG_IGN);
  int ends[2];
  if (pipe2(ends, O_CLOEXEC) != 0)
    return; // the signals end the program as they always do
  try {
    std::thread(wait_for_signal, ends[0]).detach();
  } catch (const std::system_error &) {
    return; // too little memory for a thread: the same
  }
  to_thread = ends[1];
  for (const Ending &one : endings)
    handle(one.signal);
}
} // namespace overbend::solver
