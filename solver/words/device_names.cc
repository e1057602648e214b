// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/words/device_names.h"

#include <stdexcept>

namespace overbend::solver
{
std::string device_name(cases::Device device)
{
  switch (device) {
  case cases::Device::posts:
    return "cords on the posts";
  case cases::Device::strap:
    return "strap";
  case cases::Device::headstock_bar:
    return "bar across the headstock";
  case cases::Device::strap_and_bar:
    return "strap and bar";
  case cases::Device::caul:
    return "caul";
  }
  throw std::logic_error("a device without words");
}

std::string posts_in_words(const cases::Bench &bench)
{
  if (bench.posts.empty())
    return "the middle post of each side";
  std::string text;
  for (const cases::Post &post : bench.posts)
    text += (text.empty() ? "" : ", ") +
            std::string(post.side == cases::Side::bass ? "bass " : "treble ") +
            std::to_string(post.number);
  return text;
}
} // namespace overbend::solver
