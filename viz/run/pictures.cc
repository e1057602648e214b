// SPDX-License-Identifier: GPL-3.0-or-later
#include "viz/run/pictures.h"

#include "solver/results/file_error.h"
#include "viz/run/picture_list.h"

#include <sys/wait.h>
#include <unistd.h>

#include <array>
#include <cerrno>
#include <csignal>
#include <cstring>
#include <filesystem>
#include <vector>

namespace overbend::viz
{
namespace
{
namespace fs = std::filesystem;

constexpr unsigned longest = 1800; // s that the drawing may take

// Beside the program that runs, else where it was built; empty if neither is there.
std::string drawing_program()
{
  std::error_code error;
  const fs::path self = fs::read_symlink("/proc/self/exe", error);
  for (const fs::path &path :
       {self.parent_path() / "overbend_pictures", fs::path(OVERBEND_PICTURES_PROGRAM)})
    if (fs::exists(path, error))
      return path.string();
  return "";
}

std::string last_line(const std::string &text)
{
  std::string last;
  std::size_t from = 0;
  while (from < text.size()) {
    const std::size_t end = std::min(text.find('\n', from), text.size());
    if (end > from)
      last = text.substr(from, end - from);
    from = end + 1;
  }
  return last;
}

// The child's side: only what is safe after a fork of a program with threads.
[[noreturn]] void become(const char *const *words, int error_end)
{
  dup2(error_end, STDERR_FILENO);
  alarm(longest); // outlives the exec: a driver that hangs is ended
  execv(words[0], const_cast<char *const *>(words));
  _exit(127);
}

std::string read_all(int end)
{
  std::string text;
  std::array<char, 4096> piece;
  for (;;) {
    const ssize_t got = read(end, piece.data(), piece.size());
    if (got > 0)
      text.append(piece.data(), std::size_t(got));
    else if (got == 0 || errno != EINTR)
      return text;
  }
}

// Empty: it went well. Else why not.
std::string run_drawing(const std::string &what, const std::string &folder)
{
  const std::string program = drawing_program();
  if (program.empty())
    return "no pictures: the program overbend_pictures is not beside overbend; build it";
  const std::array<const char *, 4> words = {program.c_str(), what.c_str(), folder.c_str(),
                                             nullptr};
  int ends[2];
  if (pipe(ends) != 0)
    return std::string("no pictures: no pipe to the drawing program (") + std::strerror(errno) +
           ")";
  const pid_t child = fork();
  if (child == 0)
    become(words.data(), ends[1]);
  close(ends[1]);
  if (child < 0) {
    close(ends[0]);
    return std::string("no pictures: the drawing program cannot be started (") +
           std::strerror(errno) + ")";
  }
  const std::string said = read_all(ends[0]);
  close(ends[0]);
  int status = 0;
  while (waitpid(child, &status, 0) < 0 && errno == EINTR) {
  }
  if (WIFSIGNALED(status))
    return WTERMSIG(status) == SIGALRM
               ? "no pictures: the drawing took longer than half an hour and was ended"
               : "no pictures: the drawing program was stopped by signal " +
                     std::to_string(WTERMSIG(status)) +
                     (said.empty() ? "" : ", having said: " + last_line(said));
  if (WEXITSTATUS(status) == 0)
    return "";
  return said.empty() ? "no pictures: the drawing program cannot be run" : last_line(said);
}

Pictures read_or_say(const std::string &folder, const std::string &name)
{
  try {
    return read_list(folder, name);
  } catch (const solver::FileError &error) {
    return {{}, error.what()};
  }
}

// A list of before would tell of pictures that were not drawn now.
void forget(const std::string &folder, const char *name)
{
  std::error_code ignored;
  fs::remove(fs::path(folder) / "pictures" / name, ignored);
}
} // namespace

Pictures draw_pictures(const std::string &folder)
{
  forget(folder, "pictures.json");
  const std::string why_not = run_drawing("pictures", folder);
  return why_not.empty() ? read_or_say(folder, "pictures.json") : Pictures{{}, why_not};
}

Pictures drawn_pictures(const std::string &folder)
{
  return read_or_say(folder, "pictures.json");
}

Pictures draw_animation(const std::string &folder)
{
  forget(folder, "history.json");
  const std::string why_not = run_drawing("history", folder);
  return why_not.empty() ? read_or_say(folder, "history.json") : Pictures{{}, why_not};
}
} // namespace overbend::viz
