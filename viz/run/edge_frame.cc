// SPDX-License-Identifier: GPL-3.0-or-later
#include "viz/run/edge_frame.h"

#include <algorithm>
#include <cmath>
#include <map>

namespace overbend::viz
{
namespace
{
constexpr double same_place = 1e-5; // m

// Nodes of the board's top on the centre line, by x: the highest ones, of each x the innermost.
std::vector<std::size_t> centre_line(const std::vector<double> &nodes)
{
  double top = -1e300;
  for (std::size_t n = 0; n < nodes.size(); n += 3)
    top = std::max(top, nodes[n + 2]);
  std::map<long, std::size_t> line;
  for (std::size_t n = 0; n < nodes.size() / 3; ++n) {
    if (nodes[3 * n] < 0 || nodes[3 * n + 2] < top - 5 * same_place)
      continue;
    const auto [place, fresh] = line.emplace(std::lround(nodes[3 * n] / same_place), n);
    if (!fresh && std::abs(nodes[3 * n + 1]) < std::abs(nodes[3 * place->second + 1]))
      place->second = n;
  }
  std::vector<std::size_t> sorted;
  for (const auto &[x, n] : line)
    sorted.push_back(n);
  return sorted;
}
} // namespace

EdgeFrame::EdgeFrame(const solver::MeshData &mesh, const cases::Case &c)
{
  const std::vector<std::size_t> line = centre_line(mesh.nodes);
  const int near_body =
      c.found.rest_fret_b > 0 ? c.found.rest_fret_b : c.neck.join_fret; // 0: over the join
  const std::array<int, 2> frets = {c.found.rest_fret_a, near_body};
  for (std::size_t i = 0; i < 2; ++i) {
    samples[i] = sample(cases::fret_position(c.neck.scale_length, frets[i]), line, mesh.nodes);
    rest[i] = at(samples[i], mesh.nodes);
  }
  find_edges(mesh.nodes[3 * samples[1].below], mesh.nodes);
}

EdgeFrame::Sample EdgeFrame::sample(double x, const std::vector<std::size_t> &line,
                                    const std::vector<double> &nodes) const
{
  const auto after =
      std::find_if(line.begin(), line.end(), [&](std::size_t n) { return nodes[3 * n] >= x; });
  if (after == line.begin() || line.size() < 2)
    return {line.front(), line.front(), 0};
  if (after == line.end())
    return {line.back(), line.back(), 0};
  const double from = nodes[3 * *(after - 1)], to = nodes[3 * *after];
  return {*(after - 1), *after, (x - from) / (to - from)};
}

std::array<double, 3> EdgeFrame::at(const Sample &s, const std::vector<double> &values) const
{
  std::array<double, 3> value{};
  for (std::size_t i = 0; i < 3; ++i)
    value[i] =
        values[3 * s.below + i] + s.share * (values[3 * s.above + i] - values[3 * s.below + i]);
  return value;
}

void EdgeFrame::find_edges(double x, const std::vector<double> &nodes)
{
  const double deepest = rest[1][2] - 3e-3; // of a board's edge under its rounded top, m
  bass = treble = samples[1].below;
  for (std::size_t n = 0; n < nodes.size() / 3; ++n) {
    if (std::abs(nodes[3 * n] - x) > same_place || nodes[3 * n + 2] < deepest)
      continue;
    if (nodes[3 * n + 1] < nodes[3 * bass + 1])
      bass = n;
    if (nodes[3 * n + 1] > nodes[3 * treble + 1])
      treble = n;
  }
  across = nodes[3 * treble + 1] - nodes[3 * bass + 1];
}

EdgeFrame::Motion EdgeFrame::motion(const std::vector<double> &u) const
{
  const std::array<double, 3> a = at(samples[0], u), b = at(samples[1], u);
  const double length = rest[1][0] - rest[0][0];
  Motion m;
  m.shift = a;
  if (length > 0) {
    m.turn[1] = -(b[2] - a[2]) / length;
    m.turn[2] = (b[1] - a[1]) / length;
  }
  if (across > 0)
    m.turn[0] = (u[3 * treble + 2] - u[3 * bass + 2]) / across;
  return m;
}

std::vector<double> EdgeFrame::without(const Motion &m, const std::vector<double> &nodes,
                                       std::vector<double> u) const
{
  // The turn about x goes through the rest fret near the body, which has to stay where it is too:
  // both rest frets lie on that axis.
  for (std::size_t n = 0; n < nodes.size(); n += 3) {
    const double x = nodes[n] - rest[0][0], y = nodes[n + 1] - rest[0][1],
                 z = nodes[n + 2] - rest[0][2];
    u[n] -= m.shift[0] + m.turn[1] * z - m.turn[2] * y;
    u[n + 1] -= m.shift[1] + m.turn[2] * x - m.turn[0] * z;
    u[n + 2] -= m.shift[2] + m.turn[0] * y - m.turn[1] * x;
  }
  return u;
}
} // namespace overbend::viz
