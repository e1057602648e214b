// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/results/folder_lock.h"

#include "solver/results/file_error.h"

#include <fcntl.h>
#include <sys/file.h>
#include <unistd.h>

#include <cerrno>
#include <utility>

namespace overbend::solver
{
FolderLock::FolderLock(const std::string &folder)
    : handle_(open(folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC))
{
  if (handle_ < 0 || flock(handle_, LOCK_EX | LOCK_NB) == 0 || errno != EWOULDBLOCK)
    return;
  close(std::exchange(handle_, -1));
  throw FileError(folder, "another run or command is writing into this folder now",
                  "wait until it has ended, or name another folder");
}

FolderLock::~FolderLock()
{
  if (handle_ >= 0)
    close(handle_);
}

FolderLock::FolderLock(FolderLock &&other) noexcept : handle_(std::exchange(other.handle_, -1)) {}

FolderLock &FolderLock::operator=(FolderLock &&other) noexcept
{
  std::swap(handle_, other.handle_);
  return *this;
}
} // namespace overbend::solver
