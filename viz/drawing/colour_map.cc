// SPDX-License-Identifier: GPL-3.0-or-later
#include "viz/drawing/colour_map.h"

#include <algorithm>
#include <cmath>

namespace overbend::viz
{
namespace
{
// Colours at even distances with straight lines between, at a share from 0 to 1.
template <std::size_t n>
Colour between(const int (&hex)[n], double share)
{
  const double place = double(n - 1) * std::clamp(share, 0., 1.);
  const int below = std::min(int(n) - 2, static_cast<int>(place));
  Colour colour{};
  for (int i = 0; i < 3; ++i) {
    const auto part = [&](int k) { return double(hex[k] >> (16 - 8 * i) & 0xff) / 255; };
    colour[std::size_t(i)] = part(below) + (place - below) * (part(below + 1) - part(below));
  }
  return colour;
}
} // namespace

Colour cividis(double share)
{
  static constexpr int hex[] = {0x00204d, 0x00336f, 0x39486b, 0x575c6d, 0x707173,
                                0x8a8779, 0xa69d75, 0xc4b56c, 0xe4cf5b, 0xffea46};
  return between(hex, share);
}

Colour blue_to_brown(double share)
{
  static constexpr int hex[] = {0x0b3a78, 0x3a6fb0, 0x86add6, 0xe6e6e6,
                                0xdba26a, 0xb0661f, 0x6b3600};
  return between(hex, 0.5 + 0.5 * share);
}

double luminance(const Colour &colour)
{
  const auto linear = [](double c) {
    return c <= 0.04045 ? c / 12.92 : std::pow((c + 0.055) / 1.055, 2.4);
  };
  return 0.2126 * linear(colour[0]) + 0.7152 * linear(colour[1]) + 0.0722 * linear(colour[2]);
}

double round_up(double value)
{
  if (!(value > 0))
    return 0;
  const double decade = std::pow(10., std::floor(std::log10(value)));
  for (const double step : {1., 1.5, 2., 2.5, 3., 4., 5., 6., 8.})
    if (step * decade >= value * (1 - 1e-9))
      return step * decade;
  return 10 * decade;
}
} // namespace overbend::viz
