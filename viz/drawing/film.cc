// SPDX-License-Identifier: GPL-3.0-or-later
#include "viz/drawing/film.h"

#include "viz/drawing/headless_window.h"

#include <sys/wait.h>
#include <unistd.h>

#include <array>
#include <cerrno>
#include <csignal>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <sstream>

namespace overbend::viz
{
namespace
{
namespace fs = std::filesystem;

std::string encoder_program()
{
  const char *const path = std::getenv("PATH");
  std::istringstream folders(path == nullptr ? "/usr/bin" : path);
  for (std::string folder; std::getline(folders, folder, ':');) {
    const std::string program = folder + "/ffmpeg";
    if (access(program.c_str(), X_OK) == 0)
      return program;
  }
  throw CannotDraw("no animation: the program ffmpeg is not installed; on Debian it is the package "
                   "ffmpeg");
}

std::string part_of(const std::string &path)
{
  return path + ".part";
}
} // namespace

Film::Film(const std::string &to, int width, int height, int frames_per_second) : path(to)
{
  const std::string program = encoder_program(), part = part_of(path);
  const std::string size = std::to_string(width) + "x" + std::to_string(height);
  const std::string rate = std::to_string(frames_per_second);
  const std::array<const char *, 36> words = {
      program.c_str(), "-hide_banner", "-loglevel", "error",     "-y",         "-f",
      "rawvideo",      "-pix_fmt",     "rgb24",     "-s",        size.c_str(), "-r",
      rate.c_str(),    "-i",           "-",         "-an",       "-c:v",       "libx264",
      "-preset",       "fast",         "-crf",      "25",        "-threads",   "2",
      "-pix_fmt",      "yuv420p",      "-fflags",   "+bitexact", "-flags:v",   "+bitexact",
      "-movflags",     "+faststart",   "-f",        "mp4",       part.c_str(), nullptr};
  int ends[2];
  if (pipe(ends) != 0)
    throw CannotDraw("no animation: no pipe to ffmpeg");
  std::signal(SIGPIPE, SIG_IGN); // an encoder that ends early is an error of write
  encoder = fork();
  if (encoder == 0) {
    dup2(ends[0], STDIN_FILENO);
    close(ends[0]);
    close(ends[1]);
    execv(words[0], const_cast<char *const *>(words.data()));
    _exit(127);
  }
  close(ends[0]);
  to_encoder = ends[1];
  if (encoder < 0)
    throw CannotDraw("no animation: ffmpeg does not start");
  due = std::make_unique<solver::AtSuddenEnd>([child = encoder, part](const std::string &) {
    kill(child, SIGKILL);
    std::remove(part.c_str());
    return std::string();
  });
}

Film::~Film()
{
  if (to_encoder >= 0)
    close(to_encoder);
  if (encoder > 0) { // not finished
    waitpid(encoder, nullptr, 0);
    std::error_code ignored;
    fs::remove(part_of(path), ignored);
  }
}

void Film::failed()
{
  throw CannotDraw("no animation: ffmpeg cannot encode or write " + path +
                   "; is the disk full, or ffmpeg built without libx264?");
}

void Film::add(const std::vector<unsigned char> &rgb)
{
  for (std::size_t done = 0; done < rgb.size();) {
    const ssize_t wrote = write(to_encoder, rgb.data() + done, rgb.size() - done);
    if (wrote > 0)
      done += std::size_t(wrote);
    else if (errno != EINTR)
      failed();
  }
}

void Film::finish()
{
  close(to_encoder);
  to_encoder = -1;
  int status = 0;
  while (waitpid(encoder, &status, 0) < 0 && errno == EINTR) {
  }
  encoder = -1;
  due.reset();
  std::error_code error;
  if (WIFEXITED(status) && WEXITSTATUS(status) == 0)
    fs::rename(part_of(path), path, error);
  if (!WIFEXITED(status) || WEXITSTATUS(status) != 0 || error) {
    std::error_code ignored;
    fs::remove(part_of(path), ignored);
    failed();
  }
}
} // namespace overbend::viz
