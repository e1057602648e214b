// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/climate/heat_bar.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>

namespace overbend::solver
{
namespace
{
unsigned n_elements(const BarOnBoard &bar)
{
  return std::max(1., std::ceil((bar.to - bar.from) / bar.longest_element - 1e-9));
}

// Length of [a, b] within [low, high].
double overlap(double a, double b, double low, double high)
{
  return std::max(0., std::min(b, high) - std::max(a, low));
}

// Place on the 9-node face, seen along z.
std::array<double, 2> place_on_face(const Space &space, const BoundaryFace &face, double s,
                                    double t)
{
  const double u[3] = {(2 * s - 1) * (s - 1), 4 * s * (1 - s), s * (2 * s - 1)};
  const double v[3] = {(2 * t - 1) * (t - 1), 4 * t * (1 - t), t * (2 * t - 1)};
  std::array<double, 2> p{};
  for (unsigned a = 0; a < nodes_per_face; ++a)
    for (unsigned i = 0; i < 2; ++i)
      p[i] += u[a % 3] * v[a / 3] * space.position[face.node[a]][i];
  return p;
}

// Mean over what belongs to a face's node of `value` (of y) where the bar lies and 0 elsewhere.
template <typename Value>
double mean_under_bar(const Space &space, const BoundaryFace &face, unsigned q,
                      const BarOnBoard &bar, const Value &value)
{
  // The part of the face that belongs to a node has the size of its Lobatto weight.
  constexpr double edge[4] = {0, 1. / 6, 5. / 6, 1};
  constexpr unsigned samples = 12; // in each direction
  const unsigned i = q % 3, j = q / 3;
  double sum = 0;
  for (unsigned a = 0; a < samples; ++a)
    for (unsigned b = 0; b < samples; ++b) {
      const double s = edge[i] + (edge[i + 1] - edge[i]) * (a + 0.5) / samples;
      const double t = edge[j] + (edge[j + 1] - edge[j]) * (b + 0.5) / samples;
      const auto p = place_on_face(space, face, s, t);
      if (p[0] >= bar.from && p[0] <= bar.to && std::abs(p[1]) <= bar.width / 2)
        sum += value(p[1]);
    }
  return sum / double(samples * samples);
}
} // namespace

std::vector<double> bar_nodes(const BarOnBoard &bar)
{
  if (!(bar.to > bar.from) || !(bar.width > 0) || !(bar.thickness > 0))
    throw std::runtime_error("The bar on the board has no size");
  const unsigned n = n_elements(bar);
  std::vector<double> x;
  for (unsigned i = 0; i <= n; ++i)
    x.push_back(bar.from + (bar.to - bar.from) * i / n);
  return x;
}

std::array<BarWeight, 2> bar_place(const BarOnBoard &bar, double x)
{
  const unsigned n = n_elements(bar);
  const double t = std::clamp((x - bar.from) / (bar.to - bar.from), 0., 1.) * n;
  const unsigned i = std::min(n - 1, static_cast<unsigned>(t));
  return {BarWeight{i, 1 - (t - i)}, BarWeight{i + 1, t - i}};
}

double covered_share(const Space &space, const BoundaryFace &face, unsigned q,
                     const BarOnBoard &bar)
{
  return bar.on_board ? mean_under_bar(space, face, q, bar, [](double) { return 1.; }) : 0;
}

double contact_at(const BarOnBoard &bar, double y)
{
  constexpr double air_conductivity = 0.026, gap_radiation = 5;
  const double R = bar.board_radius;
  if (!(R > std::abs(y)) || !std::isfinite(R) || !(bar.contact > 0))
    return bar.contact;
  const double gap = y * y / (R + std::sqrt(R * R - y * y));
  return 1 / (1 / bar.contact + gap / (air_conductivity + gap_radiation * gap));
}

std::vector<BarContact> bar_contacts(const Space &space, const BarOnBoard &bar)
{
  std::vector<BarContact> contacts;
  if (!bar.on_board || !space.boundary.count(bar.board_face))
    return contacts;
  const auto touch = [&](unsigned face_id, const auto &conductance) {
    const auto faces = space.boundary.find(face_id);
    if (faces == space.boundary.end())
      return;
    for (const BoundaryFace &face : faces->second)
      for (unsigned q = 0; q < nodes_per_face; ++q) {
        const double flow = face.weight[q] * mean_under_bar(space, face, q, bar, conductance);
        if (flow > 0)
          contacts.push_back({face.node[q], flow, bar_place(bar, space.position[face.node[q]][0])});
      }
  };
  touch(bar.board_face, [&](double y) { return contact_at(bar, y); });
  if (contacts.empty())
    throw std::runtime_error("The bar does not touch the board");
  if (bar.overhang_contact > 0)
    touch(bar.overhang_face, [&](double) { return bar.overhang_contact; });
  return contacts;
}

std::vector<double> bar_free_area(const Space &space, const BarOnBoard &bar)
{
  double low = 1e300, high = -1e300; // where there is board, or packing, under the bar
  const auto covered_by = [&](unsigned face_id) {
    const auto faces = space.boundary.find(face_id);
    if (faces == space.boundary.end())
      return;
    for (const BoundaryFace &face : faces->second)
      for (const unsigned n : face.node) {
        low = std::min(low, space.position[n][0]);
        high = std::max(high, space.position[n][0]);
      }
  };
  if (bar.on_board)
    covered_by(bar.board_face);
  if (bar.on_board && bar.overhang_contact > 0)
    covered_by(bar.overhang_face);
  const auto x = bar_nodes(bar);
  std::vector<double> area(x.size(), 0.);
  for (unsigned e = 0; e + 1 < x.size(); ++e)
    for (unsigned side = 0; side < 2; ++side) { // each node has the half beside it
      const double middle = (x[e] + x[e + 1]) / 2;
      const double a = side == 0 ? x[e] : middle, b = side == 0 ? middle : x[e + 1];
      const double below = b - a - overlap(a, b, low, high);
      area[e + side] += (b - a) * (bar.width + 2 * bar.thickness) + below * bar.width;
    }
  area.front() += bar.width * bar.thickness;
  area.back() += bar.width * bar.thickness;
  return area;
}

std::vector<double> iron_shares(const BarOnBoard &bar)
{
  const auto x = bar_nodes(bar);
  std::vector<double> share(x.size(), 0.);
  double sum = 0;
  for (unsigned e = 0; e + 1 < x.size(); ++e) {
    const double length = overlap(x[e], x[e + 1], bar.iron_from, bar.iron_to);
    const double middle = (std::max(x[e], bar.iron_from) + std::min(x[e + 1], bar.iron_to)) / 2;
    const double t = (middle - x[e]) / (x[e + 1] - x[e]);
    if (length > 0) { // the hat functions are linear: their value in the middle is their mean
      share[e] += (1 - t) * length;
      share[e + 1] += t * length;
      sum += length;
    }
  }
  if (!(sum > 0))
    throw std::runtime_error("The iron does not touch the bar");
  for (double &s : share)
    s /= sum;
  return share;
}
} // namespace overbend::solver
