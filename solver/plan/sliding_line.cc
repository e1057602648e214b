// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/plan/sliding_line.h"

#include "solver/model/build_model.h"

#include <algorithm>
#include <cmath>

namespace overbend::solver
{
namespace
{
constexpr std::size_t cells = 60;
constexpr std::size_t steps_in_cell = 4; // of the differences
// A cell of the mesh is longer than one of these: each looks that far for its points, m.
constexpr double smear = 12e-3;

// Mean modulus by cell after the reduced time of each point of the board's line.
template <typename ReducedTime>
LineStiffness by_cell(const Model &model, const ReducedTime &reduced)
{
  const auto &law = *model.glue_line[board_line].law;
  LineStiffness line;
  line.from = HUGE_VAL;
  line.to = -HUGE_VAL;
  const auto x_of = [&](const GluePoint &p) { return model.space.position[p.upper][0]; };
  for (const GluePoint &p : model.glue_point)
    if (p.line == board_line) {
      line.from = std::min(line.from, x_of(p));
      line.to = std::max(line.to, x_of(p));
    }
  const double width = (line.to - line.from) / cells;
  std::vector<double> sum(cells, 0.), area(cells, 0.);
  for (std::size_t g = 0; g < model.glue_point.size(); ++g) {
    const GluePoint &p = model.glue_point[g];
    if (p.line != board_line)
      continue;
    // The shift is 1 at the softening temperature, so reduced time is time there.
    const double modulus = law.relaxation_modulus(law.softening_temperature(), reduced(g));
    for (std::size_t k = 0; k < cells; ++k) {
      const double off = std::abs(x_of(p) - (line.from + (k + 0.5) * width));
      const double near = p.weight * std::max(0., 1 - off / smear);
      sum[k] += near * modulus;
      area[k] += near;
    }
  }
  line.modulus.resize(cells);
  for (std::size_t k = 0; k < cells; ++k)
    line.modulus[k] = area[k] > 0 ? sum[k] / area[k] : (k > 0 ? line.modulus[k - 1] : 0);
  return line;
}

// Solves (flow N')' - N = -m on equal steps h; flow: 1/a^2 of each. N is 0 at the first end; at the
// last too, or nothing slips there.
std::vector<double> force_in_line(const std::vector<double> &flow, const std::vector<double> &m,
                                  double h, bool locked)
{
  const std::size_t n = flow.size(); // steps; n + 1 places
  std::vector<double> upper(n + 1, 0.), force(n + 1, 0.);
  for (std::size_t i = 1; i < n; ++i) {
    const double before = flow[i - 1] / (h * h), after = flow[i] / (h * h);
    const double pivot = before + after + 1 - before * upper[i - 1];
    upper[i] = after / pivot;
    force[i] = (m[i] + before * force[i - 1]) / pivot;
  }
  if (locked) {
    const double before = 2 * flow[n - 1] / (h * h);
    force[n] = (m[n] + before * force[n - 1]) / (before + 1 - before * upper[n - 1]);
  }
  for (std::size_t i = n; i-- > 1;)
    force[i] += upper[i] * force[i + 1];
  return force;
}

double bow_weight(double x, const ReadOver &o)
{
  if (x <= o.from || x >= o.to)
    return 0;
  return (x < o.at ? (x - o.from) * (o.to - o.at) : (o.at - o.from) * (o.to - x)) / (o.to - o.from);
}
} // namespace

LineStiffness relaxed_line(const Model &model, const std::vector<cases::Phase> &phases,
                           const ThermalHistory &heat)
{
  const auto &law = *model.glue_line[board_line].law;
  std::vector<double> reduced(model.glue_point.size(), 0.);
  double time = 0;
  for (const cases::Phase &phase : phases) {
    constexpr unsigned samples = 20;
    const double dt = phase.duration / samples;
    for (unsigned k = 0; k < samples && phase.heater; ++k) {
      const std::vector<double> T = heat.at(time + (k + 0.5) * dt);
      for (std::size_t g = 0; g < reduced.size(); ++g)
        reduced[g] += dt * std::exp(law.log_shift(mean_of_sides(model.glue_point[g], T)));
    }
    time += phase.duration;
  }
  return by_cell(model, [&](std::size_t g) { return reduced[g]; });
}

LineStiffness held_line(const Model &model, const ThermalHistory &heat, double room, double factor,
                        double warmer, double time)
{
  const auto &law = *model.glue_line[board_line].law;
  const std::vector<double> &T = heat.all().back().temperature;
  return by_cell(model, [&](std::size_t g) {
    const double at = mean_of_sides(model.glue_point[g], T);
    return time * std::exp(law.log_shift(room + factor * (at - room) + warmer));
  });
}

ReadOver read_over(const cases::Case &c)
{
  const auto x = [&](int fret) { return cases::fret_position(c.neck.scale_length, fret); };
  return {x(c.found.rest_fret_a), x(c.found.bow_fret), x(c.found.rest_fret_b)};
}

bool locked_at_body(const cases::Case &c)
{
  return c.neck.tongue_glued && c.neck.heel.kind == cases::HeelKind::heel;
}

std::function<double(double)> moment_of_clamp(const cases::Case &c)
{
  const double cradle = c.bench.cradle_x, pull = -(c.tuners.first_post + c.tuners.last_post) / 2,
               held = cases::fret_position(c.neck.scale_length, c.neck.join_fret) +
                      c.bench.pad_distance;
  return [=](double x) {
    const double share = x < cradle ? (x - pull) / (cradle - pull) : (held - x) / (held - cradle);
    return std::max(0., share);
  };
}

double share_of_slip(const SlippingBeam &beam, const LineStiffness &line,
                     const std::function<double(double)> &moment, const ReadOver &over)
{
  const std::size_t n = line.modulus.size() * steps_in_cell;
  const double h = (line.to - line.from) / double(n);
  const double lever = beam.r * beam.r / (beam.rho * (1 - beam.rho) * beam.EI);
  std::vector<double> flow, m;
  for (std::size_t i = 0; i < n; ++i)
    flow.push_back(beam.glue_thickness /
                   (std::max(1., line.modulus[i / steps_in_cell]) * beam.width * lever));
  for (std::size_t i = 0; i <= n; ++i)
    m.push_back(moment(line.from + double(i) * h));
  const std::vector<double> force = force_in_line(flow, m, h, line.locked_at_body);
  double bonded = 0, slipped = 0;
  for (std::size_t i = 0; i <= n; ++i) {
    const double weight = bow_weight(line.from + double(i) * h, over);
    bonded += weight * m[i];
    slipped += weight * (m[i] - force[i]);
  }
  const double kept = 1 - bonded / (bonded + (1 / beam.rho - 1) * slipped);
  return kept / (1 - beam.rho);
}
} // namespace overbend::solver
