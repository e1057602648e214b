// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/plan/bench_heat.h"

#include "mesh/neck_profile.h"
#include "solver/climate/moisture.h"

#include <algorithm>
#include <cmath>

namespace overbend::solver
{
namespace
{
constexpr double end_length = 20e-3; // m

// Mean over the board's line (and the tongue's, which ends it) of what a point has, from one place
// to another.
template <typename Value>
double mean_over_line(const Model &model, double from, double to, const Value &value)
{
  double sum = 0, area = 0;
  for (const GluePoint &p : model.glue_point) {
    const double x = model.space.position[p.upper][0];
    if (p.line == scarf_line || x < from - 1e-9 || x > to + 1e-9)
      continue;
    sum += p.weight * value(p);
    area += p.weight;
  }
  return area > 0 ? sum / area : 0;
}

// Nodal moisture of the whole neck, seen from the line: the humidity its glue is at rest with.
struct LineHumidity
{
  const std::vector<double> *moisture; // null: that of the room everywhere
  double room;
  materials::SorptionBranch branch;
  double operator()(const GluePoint &p) const
  {
    return moisture == nullptr ? room
                               : materials::glue_humidity(mean_of_sides(p, *moisture), branch);
  }
};
} // namespace

HeatReader::HeatReader(const Workbench &workbench, const ThermalHistory &history,
                       const MoistureHistory *water)
    : heat(history), moisture(water)
{
  const Vec3 place = probe_place(workbench.the_case);
  probe = find_point(workbench.model.space, place);
  const mesh::NeckProfile profile(workbench.the_case.neck);
  const double x = std::clamp(place[0], 0., profile.body_join);
  const double y = 0.5 * profile.half_width(x); // beside a channel
  const double depth = mesh::profile_depth(profile.section(x), y);
  skin = find_point(workbench.model.space, {x, y, -depth});
  core = find_point(workbench.model.space, {x, y, -depth / 2});
  const cases::Heater &heater = workbench.the_case.heater;
  const auto has_bar = [](const ThermalState &state) { return !state.bar.empty(); };
  if (std::any_of(heat.all().begin(), heat.all().end(), has_bar))
    for (const BarWeight &part : bar_place(bar_outline(heater), heater.bar_sensor)) {
      bar_node.push_back(part.node);
      bar_weight.push_back(part.weight);
    }
}

HeatReading HeatReader::at(double time) const
{
  const auto &states = heat.all();
  const auto after = std::upper_bound(states.begin(), states.end(), time,
                                      [](double t, const ThermalState &s) { return t < s.time; });
  const ThermalState &a = after == states.begin() ? *after : *(after - 1);
  return between(a, after == states.end() ? a : *after, time);
}

HeatReading HeatReader::just_before(double time) const
{
  const auto &states = heat.all();
  const auto here = std::lower_bound(states.begin(), states.end(), time - 1e-6,
                                     [](const ThermalState &s, double t) { return s.time < t; });
  const ThermalState &b = here == states.end() ? states.back() : *here;
  return between(here == states.begin() ? b : *(here - 1), b, time);
}

HeatReading HeatReader::between(const ThermalState &a, const ThermalState &b, double time) const
{
  const double share =
      b.time > a.time ? std::clamp((time - a.time) / (b.time - a.time), 0., 1.) : 0;
  HeatReading reading;
  reading.time = time;
  reading.probe = (1 - share) * probe.value(a.temperature) + share * probe.value(b.temperature);
  if (moisture != nullptr) {
    const std::vector<double> m = moisture->at(time);
    reading.moisture = MoistureReading{probe.value(m), skin.value(m), core.value(m)};
  }
  const auto bar = [&](const ThermalState &s) {
    double sum = 0;
    for (std::size_t k = 0; k < bar_node.size(); ++k)
      sum += bar_weight[k] * s.bar.at(bar_node[k]);
    return sum;
  };
  if (!a.bar.empty() && !b.bar.empty())
    reading.bar = (1 - share) * bar(a) + share * bar(b);
  return reading;
}

bool LineWarmth::ends_lock() const
{
  return middle_modulus < sliding_modulus && nut_modulus > locking_modulus &&
         body_modulus > locking_modulus;
}

bool LineWarmth::hard_throughout() const
{
  return std::min({nut_modulus, middle_modulus, body_modulus}) > locking_modulus;
}

LineWarmth line_warmth(const Workbench &workbench, const ThermalHistory &heat,
                       const MoistureHistory *moisture)
{
  const Model &model = workbench.model;
  double time = 0, end = 0;
  LineWarmth warmth;
  for (const cases::Phase &phase : workbench.the_case.phases) {
    time += phase.duration;
    if (phase.heater && phase.cords) {
      end = time;
      warmth.hot_time += phase.duration;
    }
  }
  double first = 1e9, last = -1e9;
  for (const GluePoint &p : model.glue_point)
    if (p.line != scarf_line) {
      first = std::min(first, model.space.position[p.upper][0]);
      last = std::max(last, model.space.position[p.upper][0]);
    }
  end = std::min(end, heat.end());
  const std::vector<double> temperature = heat.at(end), before = moisture_at(moisture, 0),
                            water = moisture_at(moisture, end);
  const double room = workbench.the_case.room.humidity;
  const LineHumidity humidity_before{moisture ? &before : nullptr, room, model.branch},
      humidity{moisture ? &water : nullptr, room, model.branch};
  const materials::GlueLaw &law = *model.glue_line[board_line].law;
  const double during = std::max(warmth.hot_time, 1.);
  const auto look = [&](double from, double to, double &kelvin, double &modulus) {
    kelvin = mean_over_line(model, from, to,
                            [&](const GluePoint &p) { return mean_of_sides(p, temperature); });
    modulus = law.relaxation_modulus({kelvin, mean_over_line(model, from, to, humidity)}, during);
  };
  const double middle = 0.5 * (first + last);
  look(first, first + end_length, warmth.nut_end, warmth.nut_modulus);
  look(middle - end_length, middle + end_length, warmth.middle, warmth.middle_modulus);
  look(last - end_length, last, warmth.body_end, warmth.body_modulus);
  warmth.humidity_before = mean_over_line(model, first, last, humidity_before);
  warmth.humidity = mean_over_line(model, first, last, humidity);
  warmth.driest = 1;
  for (const GluePoint &p : model.glue_point)
    if (p.line != scarf_line)
      warmth.driest = std::min(warmth.driest, humidity(p));
  const materials::Glue &glue = model.glue_line[board_line].glue;
  warmth.softens_before = materials::softening_temperature(glue, warmth.humidity_before);
  warmth.softens_driest = materials::softening_temperature(glue, warmth.driest);
  return warmth;
}
} // namespace overbend::solver
