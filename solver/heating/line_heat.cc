// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/heating/line_heat.h"

#include "mesh/names.h"
#include "mesh/neck_profile.h"
#include "solver/bench/pad_springs.h"
#include "solver/model/build_model.h"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <map>
#include <stdexcept>

namespace overbend::solver
{
namespace
{
unsigned id(mesh::Face face)
{
  return static_cast<unsigned>(face);
}

void raise(HottestPlace &hottest, double temperature, double x, double y, double time)
{
  if (temperature > hottest.temperature)
    hottest = {temperature, x, y, time};
}

// Places of a neck that are looked at in every state; found once.
class Places
{
public:
  Places(const Model &of_model, const cases::Case &of_case)
      : model(of_model), the_case(of_case), bar(make_bar(heat_source(of_model, of_case))),
        bar_x(bar_nodes(bar)), board_top(face_nodes(of_model.space, id(mesh::Face::board_top)))
  {
    const cases::Bench &bench = the_case.bench;
    for (const PadPoint &point :
         pad_points(model.space, id(mesh::Face::back), bench.cradle_x - bench.cradle_width / 2,
                    bench.cradle_x + bench.cradle_width / 2))
      pad.push_back({find_point(model.space, point.position), point.position});
  }

  void look(const ThermalState &state, bool in_cradle, HottestPlaces &hottest) const
  {
    for (const GluePoint &p : model.glue_point)
      raise_at(p.line == scarf_line ? hottest.scarf : hottest.line, p.upper,
               mean_of_sides(p, state.temperature), state.time);
    for (const FaceNode &n : board_top)
      raise_at(hottest.surface, n.node, state.temperature[n.node], state.time);
    if (!state.bar.empty())
      look_at_bar(state, hottest);
    if (in_cradle)
      for (const PadSample &point : pad)
        raise(hottest.under_cradle, point.sample.value(state.temperature), point.place[0],
              point.place[1], state.time);
  }

private:
  struct PadSample
  {
    Sample sample;
    Vec3 place;
  };

  void raise_at(HottestPlace &hottest, unsigned node, double temperature, double time) const
  {
    const Vec3 &place = model.space.position[node];
    raise(hottest, temperature, place[0], place[1], time);
  }

  void look_at_bar(const ThermalState &state, HottestPlaces &hottest) const
  {
    for (std::size_t i = 0; i < bar_x.size(); ++i)
      raise(hottest.bar, state.bar[i], bar_x[i], 0, state.time);
    if (the_case.heater.frets == cases::BarOnFrets::out)
      return;
    for (const FaceNode &n : board_top) {
      const Vec3 &place = model.space.position[n.node];
      if (place[0] < bar.from || place[0] > bar.to || std::abs(place[1]) > bar.width / 2)
        continue;
      double above = 0;
      for (const BarWeight &w : bar_place(bar, place[0]))
        above += w.weight * state.bar[w.node];
      // Beside the middle of a board with a radius the bar does not touch the fret.
      const double share = fret_share_of_bar * contact_at(bar, place[1]) / bar.contact;
      raise_at(hottest.fret_tops, n.node, share * above + (1 - share) * state.temperature[n.node],
               state.time);
    }
  }

  const Model &model;
  const cases::Case &the_case;
  const BarOnBoard bar;
  const std::vector<double> bar_x;
  const std::vector<FaceNode> board_top;
  std::vector<PadSample> pad;
};

// The phase that a time lies in; at a boundary the one that ends there.
const cases::Phase &phase_at(const cases::Case &the_case, double time)
{
  double end = 0;
  for (const cases::Phase &phase : the_case.phases) {
    end += phase.duration;
    if (time <= end * (1 + 1e-12))
      return phase;
  }
  return the_case.phases.back();
}

// On the board's glue line, at a share of the half width.
double on_line(const Model &model, const mesh::NeckProfile &profile,
               const std::vector<double> &temperature, double x, double across)
{
  const Vec3 place{std::clamp(x, 0., profile.board_end), across * profile.half_width(x), 0};
  return find_point(model.space, place).value(temperature);
}

// The warmest of the glue beside x, in the middle half of the board: over a rod's channel there is
// none on the centre line, and the bare underside of the board there is warmer than any glue. By a
// straight line between the columns of the mesh beside x.
double warmest_beside(const Model &model, const mesh::NeckProfile &profile,
                      const std::vector<double> &temperature, double x)
{
  std::map<long, double> column; // by x in micrometres
  for (const GluePoint &p : model.glue_point) {
    const Vec3 &place = model.space.position[p.upper];
    if (p.line == scarf_line || std::abs(place[1]) > profile.half_width(place[0]) / 2)
      continue;
    double &warmest = column.try_emplace(std::lround(1e6 * place[0]), 0.).first->second;
    warmest = std::max(warmest, mean_of_sides(p, temperature));
  }
  if (column.empty())
    throw std::runtime_error("The board has no glue line to read the temperature of");
  const auto after = column.lower_bound(std::lround(1e6 * x));
  if (after == column.begin())
    return after->second;
  const auto before = std::prev(after);
  if (after == column.end())
    return before->second;
  const double share = (1e6 * x - double(before->first)) / double(after->first - before->first);
  return (1 - share) * before->second + share * after->second;
}

void sum_over_line(const Model &model, const std::vector<double> &temperature, LineHeat &line)
{
  double sum = 0, area = 0;
  line.coldest = 1e9;
  for (const GluePoint &p : model.glue_point) {
    if (p.line == scarf_line)
      continue;
    const double here = mean_of_sides(p, temperature);
    sum += p.weight * here;
    area += p.weight;
    line.coldest = std::min(line.coldest, here);
    if (here > line.hottest) {
      line.hottest = here;
      line.hottest_x = model.space.position[p.upper][0];
      line.hottest_y = model.space.position[p.upper][1];
    }
  }
  line.mean = area > 0 ? sum / area : 0;
}

// Of the state at a time, or of the two around it.
std::optional<double> bar_at_sensor(const cases::Heater &heater, const ThermalHistory &heat,
                                    double time)
{
  const ThermalState *before = nullptr, *after = nullptr;
  for (const ThermalState &state : heat.all()) {
    if (state.bar.empty())
      continue;
    if (state.time <= time)
      before = &state;
    else if (after == nullptr)
      after = &state;
  }
  if (before == nullptr || (after == nullptr && before->time < time))
    return {};
  const double share = after == nullptr ? 0 : (time - before->time) / (after->time - before->time);
  double bar = 0;
  for (const BarWeight &w : bar_place(bar_outline(heater), heater.bar_sensor))
    bar += w.weight * ((1 - share) * before->bar[w.node] +
                       (after == nullptr ? 0 : share * after->bar[w.node]));
  return bar;
}
} // namespace

HottestPlaces hottest_places(const Model &model, const cases::Case &the_case,
                             const ThermalHistory &heat)
{
  const Places places(model, the_case);
  HottestPlaces hottest;
  for (const ThermalState &state : heat.all()) {
    places.look(state, phase_at(the_case, state.time).cradle, hottest);
  }
  return hottest;
}

LineHeat line_heat(const Model &model, const cases::Case &the_case, const ThermalHistory &heat,
                   double time)
{
  const std::vector<double> temperature = heat.at(time);
  const mesh::NeckProfile profile(the_case.neck);
  const cases::Heater &heater = the_case.heater;
  const auto at = [&](double x, double across) {
    return on_line(model, profile, temperature, x, across);
  };
  LineHeat line;
  line.time = time;
  line.air = phase_at(the_case, time).air.temperature;
  line.probe = find_point(model.space, probe_place(the_case)).value(temperature);
  line.bar = bar_at_sensor(heater, heat, time);
  sum_over_line(model, temperature, line);
  const auto middle = [&](double x) { return warmest_beside(model, profile, temperature, x); };
  line.under_iron = middle((heater.iron_from + heater.iron_to) / 2);
  line.middle = middle(the_case.probe.x);
  line.edge = (at(the_case.probe.x, -1) + at(the_case.probe.x, 1)) / 2;
  return line;
}

std::optional<double> end_of_heat(const cases::Case &the_case)
{
  std::optional<double> heated, clamped;
  double end = 0;
  for (const cases::Phase &phase : the_case.phases) {
    end += phase.duration;
    if (phase.heater)
      heated = end;
    if (phase.heater && phase.cords)
      clamped = end;
  }
  return clamped ? clamped : heated;
}
} // namespace overbend::solver
