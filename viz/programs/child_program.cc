// SPDX-License-Identifier: GPL-3.0-or-later
#include "viz/programs/child_program.h"

#include "solver/ending/sudden_end.h"

#include <fcntl.h>
#include <poll.h>
#include <spawn.h>
#include <sys/mman.h>
#include <sys/wait.h>
#include <unistd.h>

#include <array>
#include <cerrno>
#include <csignal>

extern char **environ;

namespace overbend::viz
{
namespace
{
using Clock = std::chrono::steady_clock;

// A handle of the system that closes itself and is not handed on.
class Owned
{
public:
  explicit Owned(int handle = -1) : handle_(handle) {}
  ~Owned() { reset(); }
  Owned(const Owned &) = delete;
  Owned &operator=(const Owned &) = delete;
  operator int() const { return handle_; }
  void reset(int handle = -1)
  {
    if (handle_ >= 0)
      close(handle_);
    handle_ = handle;
  }

private:
  int handle_;
};

struct Channel
{
  explicit Channel(std::string &to) : text(to)
  {
    int ends[2];
    if (pipe2(ends, O_CLOEXEC) == 0) {
      ours.reset(ends[0]);
      theirs.reset(ends[1]);
    }
  }
  // False at its end.
  bool take()
  {
    std::array<char, 16384> piece;
    const ssize_t got = read(ours, piece.data(), piece.size());
    if (got > 0)
      text.append(piece.data(), std::size_t(got));
    return got > 0 || (got < 0 && errno == EINTR);
  }
  std::string &text;
  Owned ours, theirs;
};

// A file without a name: a pipe would have to be filled while the answers are read, and a program
// that ends early would send a signal.
int held(const std::string &text)
{
  const int file = memfd_create("input", MFD_CLOEXEC);
  for (std::size_t done = 0; file >= 0 && done < text.size();) {
    const ssize_t wrote = write(file, text.data() + done, text.size() - done);
    if (wrote <= 0)
      break;
    done += std::size_t(wrote);
  }
  if (file >= 0)
    lseek(file, 0, SEEK_SET);
  return file;
}

// The system's error, 0: started.
int start(const std::vector<std::string> &words, int input, int output, int errors, pid_t &child)
{
  std::vector<char *> arguments;
  for (const std::string &word : words)
    arguments.push_back(const_cast<char *>(word.c_str()));
  arguments.push_back(nullptr);
  posix_spawn_file_actions_t actions;
  posix_spawn_file_actions_init(&actions);
  posix_spawn_file_actions_adddup2(&actions, input, STDIN_FILENO);
  posix_spawn_file_actions_adddup2(&actions, output, STDOUT_FILENO);
  posix_spawn_file_actions_adddup2(&actions, errors, STDERR_FILENO);
  const int error =
      posix_spawnp(&child, arguments[0], &actions, nullptr, arguments.data(), environ);
  posix_spawn_file_actions_destroy(&actions);
  return error;
}

// Both answers up to their ends; false if the time was over before.
bool read_until(Clock::time_point end, Channel &output, Channel &errors)
{
  while (output.ours >= 0 || errors.ours >= 0) {
    const auto left = std::chrono::duration_cast<std::chrono::milliseconds>(end - Clock::now());
    if (left.count() <= 0)
      return false;
    std::array<pollfd, 2> waiting = {{{output.ours, POLLIN, 0}, {errors.ours, POLLIN, 0}}};
    if (poll(waiting.data(), waiting.size(), int(left.count())) <= 0)
      continue;
    for (Channel *const channel : {&output, &errors}) {
      const pollfd &one = waiting[channel == &output ? 0 : 1];
      if (one.revents != 0 && !channel->take())
        channel->ours.reset();
    }
  }
  return true;
}

// The same; the child has to end with this program.
bool read_unless_ended(pid_t child, Clock::time_point end, Channel &output, Channel &errors)
{
  const solver::AtSuddenEnd when_ended([child](const std::string &) {
    kill(child, SIGTERM);
    return std::string();
  });
  return read_until(end, output, errors);
}

int wait_for(pid_t child)
{
  int status = 0;
  while (waitpid(child, &status, 0) < 0 && errno == EINTR) {
  }
  return status;
}
} // namespace

ChildEnd run_program(const std::vector<std::string> &words, const std::string &input,
                     std::chrono::seconds longest)
{
  ChildEnd end;
  const Clock::time_point last = Clock::now() + longest;
  const Owned text(held(input));
  Channel output(end.output), errors(end.errors);
  pid_t child = 0;
  end.number = start(words, text, output.theirs, errors.theirs, child);
  if (end.number != 0)
    return end;
  output.theirs.reset();
  errors.theirs.reset();
  const bool in_time = read_unless_ended(child, last, output, errors);
  if (!in_time)
    kill(child, SIGKILL);
  const int status = wait_for(child);
  end.kind = WIFSIGNALED(status) ? ChildEnd::Kind::by_signal : ChildEnd::Kind::exited;
  end.number = WIFSIGNALED(status) ? WTERMSIG(status) : WEXITSTATUS(status);
  if (!in_time)
    end.kind = ChildEnd::Kind::too_slow;
  return end;
}
} // namespace overbend::viz
