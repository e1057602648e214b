// SPDX-License-Identifier: GPL-3.0-or-later
#include "materials/strength.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace overbend::materials
{
namespace
{
constexpr double unknown = std::numeric_limits<double>::infinity();

// Eq. 5-3 if the green value is known, else as at 12 %.
double at_moisture(const Wood &wood, double dry, std::optional<double> green, double moisture)
{
  if (!green || !std::isfinite(dry))
    return dry;
  return dry * moisture_factor(*green / dry, wood.moisture_intersection, moisture);
}

// u^2 in one plane.
double plane(double a, double x, double b, double y, double t, double s)
{
  const double p = a / x, q = b / y, r = t / s;
  return p * p - p * q + q * q + r * r;
}
} // namespace

Strengths strengths(const Wood &wood, double temperature, double moisture)
{
  const WoodStrength &s = wood.strength;
  const double share_of_30K = (temperature - reference_temperature) / 30;
  const auto hot = [&](double cold, const MoistureLine &drop) {
    return cold * std::pow(1 - drop.at(moisture), share_of_30K);
  };
  Strengths result{};
  const auto wet = [&](std::optional<double> dry, std::optional<double> green) {
    return at_moisture(wood, dry.value_or(unknown), green, moisture);
  };
  result.tension_along = hot(wet(s.bending, s.bending_green), s.bending_drop);
  result.compression_along =
      hot(wet(s.compression_along, s.compression_along_green), s.compression_along_drop);
  result.tension_across = hot(s.tension_across.value_or(unknown), s.tension_across_drop);
  result.compression_across =
      hot(wet(s.compression_across, s.compression_across_green), s.compression_across_drop);
  result.shear_along = hot(wet(s.shear_along, s.shear_along_green), s.shear_drop);
  result.shear_rolling = s.rolling_shear_share * result.shear_along;
  return result;
}

Use use_of_strength(const Vector6 &stress, const Strengths &s)
{
  const double x = stress[0] >= 0 ? s.tension_along : s.compression_along;
  const double r = stress[1] >= 0 ? s.tension_across : s.compression_across;
  const double t = stress[2] >= 0 ? s.tension_across : s.compression_across;
  const double worst = std::max({plane(stress[0], x, stress[1], r, stress[5], s.shear_along),
                                 plane(stress[0], x, stress[2], t, stress[4], s.shear_along),
                                 plane(stress[1], r, stress[2], t, stress[3], s.shear_rolling)});
  const double across = std::max(std::abs(stress[1]) / r, std::abs(stress[2]) / t);
  const bool across_in_tension =
      std::abs(stress[1]) / r >= std::abs(stress[2]) / t ? stress[1] >= 0 : stress[2] >= 0;
  const double along = std::abs(stress[0]) / x;
  const double shear = std::max(std::abs(stress[4]), std::abs(stress[5])) / s.shear_along;
  const double rolling = std::abs(stress[3]) / s.shear_rolling;
  const double largest = std::max({along, across, shear, rolling});
  Use use;
  use.share = std::sqrt(worst);
  if (largest == along)
    use.mode = stress[0] >= 0 ? "tension along the grain" : "compression along the grain";
  else if (largest == across)
    use.mode = across_in_tension ? "tension across the grain" : "compression across the grain";
  else
    use.mode = largest == shear ? "shear along the grain" : "rolling shear";
  return use;
}

Use use_of_strength(const Vector6 &stress, const Wood &wood, double temperature, double moisture)
{
  return use_of_strength(stress, strengths(wood, temperature, moisture));
}

std::vector<std::string> missing_modes(const Wood &wood)
{
  const WoodStrength &s = wood.strength;
  std::vector<std::string> missing;
  if (!s.tension_across)
    missing.push_back("tension across the grain");
  if (!s.compression_across)
    missing.push_back("compression across the grain");
  if (!s.shear_along) {
    missing.push_back("shear along the grain");
    missing.push_back("rolling shear");
  }
  return missing;
}

double duration_factor(double time)
{
  const auto level = [](double seconds) { return 18.3 + 108.4 * std::pow(seconds, -0.0464); };
  return level(std::max(time, 1.)) / level(300);
}

double lasting_share(double share, double held)
{
  return share / std::min(1., duration_factor(held));
}

double HeldLoad::held(double time, double share)
{
  constexpr double still_held = 0.9;
  double since = time;
  while (!level.empty() && level.back().share >= share) {
    since = level.back().since;
    level.pop_back();
  }
  level.push_back({since, share});
  const auto first = std::find_if(level.begin(), level.end(),
                                  [&](const Level &l) { return l.share >= still_held * share; });
  return time - first->since;
}
} // namespace overbend::materials
