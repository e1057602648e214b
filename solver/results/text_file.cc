// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/results/text_file.h"

#include "solver/results/file_error.h"

#include <array>
#include <cerrno>
#include <charconv>
#include <cmath>
#include <cstdio>
#include <cstring>
#include <stdexcept>

namespace overbend::solver
{
void write_text_file(const std::string &path, const std::string &text)
{
  const std::string temporary = path + ".tmp";
  const auto fail = [&]() {
    const std::string reason = std::strerror(errno);
    std::remove(temporary.c_str());
    throw FileError(path, "cannot be written (" + reason + ")",
                    "check the folder and the free space on the disk");
  };
  std::FILE *file = std::fopen(temporary.c_str(), "wb");
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
  if (std::rename(temporary.c_str(), path.c_str()) != 0)
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
