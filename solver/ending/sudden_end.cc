// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/ending/sudden_end.h"

#include <algorithm>
#include <cstdio>
#include <exception>
#include <mutex>
#include <vector>

namespace overbend::solver
{
namespace
{
struct Due
{
  // The actions may begin something of the kind themselves.
  std::recursive_mutex mutex;
  std::vector<const AtSuddenEnd *> all;
};

// Never destroyed: a signal may come while the program ends.
Due &due()
{
  static Due *const list = new Due;
  return *list;
}
} // namespace

AtSuddenEnd::AtSuddenEnd(Action action) : action_(std::move(action))
{
  const std::lock_guard lock(due().mutex);
  due().all.push_back(this);
}

AtSuddenEnd::~AtSuddenEnd()
{
  const std::lock_guard lock(due().mutex);
  std::vector<const AtSuddenEnd *> &all = due().all;
  all.erase(std::find(all.begin(), all.end(), this));
}

std::string end_suddenly(const std::string &reason)
{
  due().mutex.lock(); // for good
  const std::vector<const AtSuddenEnd *> all = due().all;
  std::string left;
  for (auto one = all.rbegin(); one != all.rend(); ++one)
    try {
      const std::string sentence = (*one)->action_(reason);
      left += (left.empty() || sentence.empty() ? "" : "; ") + sentence;
    } catch (const std::exception &) {
      // The others are due all the same.
    }
  return left;
}

ScratchFile::ScratchFile(std::string path)
    : path_(std::move(path)), due_([name = path_](const std::string &) {
        std::remove(name.c_str());
        return std::string();
      })
{}

ScratchFile::~ScratchFile()
{
  if (!path_.empty())
    std::remove(path_.c_str());
}

bool ScratchFile::keep_as(const std::string &name)
{
  if (std::rename(path_.c_str(), name.c_str()) != 0)
    return false;
  path_.clear();
  return true;
}
} // namespace overbend::solver
