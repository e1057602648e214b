// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

namespace overbend::solver
{
// While it lives, no other run, report or drawing of pictures writes into the folder: two at once
// would leave a mixture of both. The lock is the system's, on the folder itself: it leaves no file
// and goes with the program, however that ends. A file system that knows no locks does without.
class FolderLock
{
public:
  FolderLock() = default;
  // FileError if another program holds it.
  explicit FolderLock(const std::string &folder);
  ~FolderLock();
  FolderLock(FolderLock &&other) noexcept;
  FolderLock &operator=(FolderLock &&other) noexcept;

private:
  int handle_ = -1;
};
} // namespace overbend::solver
