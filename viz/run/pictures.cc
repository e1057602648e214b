// SPDX-License-Identifier: GPL-3.0-or-later
#include "viz/run/pictures.h"

#include "solver/results/file_error.h"
#include "viz/programs/child_program.h"
#include "viz/run/picture_list.h"

#include <algorithm>
#include <chrono>
#include <cstring>
#include <filesystem>

namespace overbend::viz
{
namespace
{
namespace fs = std::filesystem;

// That the drawing may take; a driver that hangs is ended.
constexpr std::chrono::seconds longest(1800);

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

// Empty: it went well. Else why not.
std::string run_drawing(const std::string &what, const std::string &folder)
{
  const std::string program = drawing_program();
  if (program.empty())
    return "no pictures: the program overbend_pictures is not beside overbend; build it";
  const ChildEnd end = run_program({program, what, folder}, "", longest);
  const std::string said = last_line(end.errors);
  switch (end.kind) {
  case ChildEnd::Kind::not_started:
    return std::string("no pictures: the drawing program cannot be started (") +
           std::strerror(end.number) + ")";
  case ChildEnd::Kind::too_slow:
    return "no pictures: the drawing took longer than half an hour and was ended";
  case ChildEnd::Kind::by_signal:
    return "no pictures: the drawing program was stopped by signal " + std::to_string(end.number) +
           (said.empty() ? "" : ", having said: " + said);
  case ChildEnd::Kind::exited:
    break;
  }
  if (end.number == 0)
    return "";
  return said.empty() ? "no pictures: the drawing program cannot be run" : said;
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

Pictures drawn_animation(const std::string &folder)
{
  return read_or_say(folder, "history.json");
}

Pictures draw_animation(const std::string &folder)
{
  forget(folder, "history.json");
  const std::string why_not = run_drawing("history", folder);
  return why_not.empty() ? read_or_say(folder, "history.json") : Pictures{{}, why_not};
}
} // namespace overbend::viz
