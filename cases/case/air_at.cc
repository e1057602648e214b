// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/case/climate.h"
#include "cases/case/humid_air.h"

#include <algorithm>
#include <cmath>

// Air around the instrument at a time, and the months of a house.
namespace overbend::cases
{
namespace
{
constexpr double year = 31557600, week = 604800; // s
constexpr double turn = 900; // s, in which the air of a hot evening comes and goes

ClimatePoint between(const ClimatePoint &a, const ClimatePoint &b, double time)
{
  const double share = (time - a.time) / (b.time - a.time);
  return {time, a.temperature + share * (b.temperature - a.temperature),
          a.humidity + share * (b.humidity - a.humidity)};
}

// 1 within the hot evening of a week, 0 outside.
double hotness(const Climate &climate, double time)
{
  if (!(climate.hot_hours > 0))
    return 0;
  const double from_middle = std::abs(time - week * std::floor(time / week) - week / 2);
  return std::clamp((climate.hot_hours / 2 - from_middle) / turn + 0.5, 0., 1.);
}
} // namespace

Air air_at(const Phase &phase, double time)
{
  const Climate &climate = phase.climate;
  const std::vector<ClimatePoint> &points = climate.points;
  if (points.empty())
    return phase.air;
  const double hot = hotness(climate, time);
  if (climate.period > 0)
    time -= climate.period * std::floor(time / climate.period);
  const auto next =
      std::upper_bound(points.begin(), points.end(), time,
                       [](double t, const ClimatePoint &point) { return t < point.time; });
  ClimatePoint now = next == points.end() ? points.back() : points.front();
  if (next != points.begin() && next != points.end())
    now = between(*(next - 1), *next, time);
  else if (climate.period > 0 && points.back().time - points.front().time < climate.period) {
    // Over the turn of the year: from the last point to the first.
    ClimatePoint last = points.back(), first = points.front();
    if (next == points.begin())
      last.time -= climate.period;
    else
      first.time += climate.period;
    now = between(last, first, time);
  }
  Air air = phase.air;
  air.temperature = now.temperature + hot * (climate.hot_temperature - now.temperature);
  air.humidity =
      hot > 0 ? humidity_after(now.humidity, now.temperature, air.temperature) : now.humidity;
  return air;
}

Climate yearly_climate(const std::array<MonthAir, 12> &months, int first_month)
{
  Climate climate;
  climate.month = first_month;
  climate.period = year;
  for (int i = 0; i < 12; ++i) {
    const MonthAir &month = months[static_cast<std::size_t>((first_month + i) % 12)];
    climate.points.push_back({(i + 0.5) * year / 12, month.temperature, month.humidity});
  }
  return climate;
}

Climate indoor_climate(const Case &the_case, int first_month)
{
  Climate climate = yearly_climate(the_case.year, first_month);
  climate.hot_hours = the_case.hot_evenings.hours;
  climate.hot_temperature = the_case.hot_evenings.temperature;
  return climate;
}
} // namespace overbend::cases
