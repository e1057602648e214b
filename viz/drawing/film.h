// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/ending/sudden_end.h"

#include <memory>
#include <string>
#include <vector>

namespace overbend::viz
{
// A film of pictures of one size, encoded as MP4 (H.264) by the program ffmpeg while they come.
class Film
{
public:
  // Throws CannotDraw if ffmpeg is not installed or does not start.
  Film(const std::string &path, int width, int height, int frames_per_second);
  ~Film();
  Film(const Film &) = delete;
  Film &operator=(const Film &) = delete;

  // RGB, upper line first. Throws CannotDraw if ffmpeg has given up.
  void add(const std::vector<unsigned char> &rgb);
  // The file is there under its name only after this.
  void finish();

private:
  [[noreturn]] void failed();
  std::string path;
  int to_encoder = -1;
  std::unique_ptr<solver::AtSuddenEnd> due;
  int encoder = -1; // process id
};
} // namespace overbend::viz
