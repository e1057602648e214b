// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/text/document.h"
#include "cases/text/error.h"

#include <fcntl.h>
#include <poll.h>
#include <unistd.h>

#include <array>
#include <cerrno>
#include <cstring>
#include <filesystem>

namespace overbend::cases
{
namespace
{
namespace fs = std::filesystem;

// A pipe that nobody writes into would be waited for in silence.
constexpr int patience = 10; // s
constexpr int for_ever = -1;

class OpenFile
{
public:
  explicit OpenFile(const std::string &path)
      // Without waiting for the writer of a pipe.
      : handle(open(path.c_str(), O_RDONLY | O_NONBLOCK | O_CLOEXEC))
  {}
  ~OpenFile()
  {
    if (handle >= 0)
      close(handle);
  }
  OpenFile(const OpenFile &) = delete;
  OpenFile &operator=(const OpenFile &) = delete;
  const int handle;
};

// False if nothing came in that time.
bool wait_for_bytes(int handle, int milliseconds)
{
  pollfd waiting = {handle, POLLIN, 0};
  int ready = 0;
  do
    ready = poll(&waiting, 1, milliseconds);
  while (ready < 0 && errno == EINTR);
  return ready != 0;
}

[[noreturn]] void refuse_unreadable(const std::string &path, int error)
{
  throw CaseError(path, 0, std::string("the file cannot be read (") + std::strerror(error) + ")",
                  "check its permissions");
}
} // namespace

void check_size_of_case(std::size_t bytes, const std::string &file)
{
  if (bytes > largest_case_file)
    throw CaseError(file, 0,
                    "the file has " + std::to_string(bytes / 1000) +
                        " kB, more than the 1000 kB allowed for a case",
                    "give the case file itself, not results or pictures");
}

std::string read_text(const std::string &path)
{
  std::error_code error;
  const fs::file_status status = fs::status(path, error);
  if (!fs::exists(status))
    throw CaseError(path, 0, "there is no such file", "check the name and the folder");
  if (fs::is_directory(status))
    throw CaseError(path, 0, "this is a folder, not a case file", "name a file inside it");
  if (fs::is_regular_file(status))
    check_size_of_case(fs::file_size(path, error), path);
  const OpenFile file(path);
  if (file.handle < 0)
    refuse_unreadable(path, errno);
  const int wait = fs::is_fifo(status) ? 1000 * patience : for_ever;
  std::string text;
  std::array<char, 65536> piece;
  while (text.size() <= largest_case_file) {
    if (!wait_for_bytes(file.handle, wait))
      throw CaseError(path, 0,
                      "nothing comes through this pipe, after " + std::to_string(patience) +
                          " s of waiting",
                      "write into it, or name a file");
    const ssize_t got = read(file.handle, piece.data(), piece.size());
    if (got == 0)
      break;
    if (got > 0)
      text.append(piece.data(), static_cast<std::size_t>(got));
    else if (errno != EINTR && errno != EAGAIN)
      refuse_unreadable(path, errno);
  }
  check_size_of_case(text.size(), path);
  return text;
}
} // namespace overbend::cases
