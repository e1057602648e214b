// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/results/text_file.h"

#include "solver/ending/sudden_end.h"
#include "solver/results/file_error.h"

#include <array>
#include <cerrno>
#include <charconv>
#include <cmath>
#include <cstdio>
#include <cstring>
#include <filesystem>
#include <stdexcept>

namespace overbend::solver
{
namespace fs = std::filesystem;

void refuse_to_replace_a_device(const std::string &path)
{
  std::error_code error;
  const fs::file_status status = fs::status(path, error);
  if (fs::exists(status) && !fs::is_regular_file(status) && !fs::is_directory(status))
    throw FileError(path, "is no file but a device or a pipe", "name a file to write");
}

void write_text_file(const std::string &path, const std::string &text)
{
  refuse_to_replace_a_device(path);
  ScratchFile temporary(path + ".tmp");
  const auto fail = [&]() {
    const std::string reason = std::strerror(errno);
    throw FileError(path, "cannot be written (" + reason + ")",
                    "check the folder and the free space on the disk");
  };
  std::FILE *file = std::fopen(temporary.path().c_str(), "wb");
  if (file == nullptr)
    fail();
  const bool written = std::fwrite(text.data(), 1, text.size(), file) == text.size();
  const int error = errno;
  // Closing writes what is still buffered: a full disk may show only here.
  if (std::fclose(file) != 0 || !written) {
    if (!written)
      errno = error;
    fail();
  }
  if (!temporary.keep_as(path))
    fail();
}

std::string number_text(double value, int digits)
{
  if (!std::isfinite(value))
    throw std::invalid_argument("a number to be written is not finite");
  std::array<char, 64> text;
  const auto end = std::to_chars(text.data(), text.data() + text.size(), value,
                                 std::chars_format::general, digits);
  return std::string(text.data(), end.ptr);
}
} // namespace overbend::solver
