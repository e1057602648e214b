// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <functional>
#include <string>

// What is due when the program is told to end in the middle of its work: half-written files go, the
// record of a run says why it stopped, programs that were started are ended.
namespace overbend::solver
{
// While it lives, its action is due at a sudden end. The action is given the reason and returns
// what is left and what to do with it, as one sentence, or nothing. It is called by another thread
// than the one that works: it may use what it holds itself, and files.
class AtSuddenEnd
{
public:
  using Action = std::function<std::string(const std::string &reason)>;
  explicit AtSuddenEnd(Action action);
  ~AtSuddenEnd();
  AtSuddenEnd(const AtSuddenEnd &) = delete;
  AtSuddenEnd &operator=(const AtSuddenEnd &) = delete;

private:
  Action action_;
  friend std::string end_suddenly(const std::string &reason);
};

// Does what is due, the latest first, and returns what the actions said. From then on nothing of
// the kind begins or ends any more: who tries, waits. The caller ends the program.
std::string end_suddenly(const std::string &reason);

// A file that is written under this name before it gets its own. It is removed at the end of the
// object's life and at a sudden end, unless it is kept.
class ScratchFile
{
public:
  explicit ScratchFile(std::string path);
  ~ScratchFile();
  const std::string &path() const { return path_; }
  // Gives it its name; false with errno if that cannot be done.
  bool keep_as(const std::string &name);

private:
  std::string path_;
  AtSuddenEnd due_;
};
} // namespace overbend::solver
