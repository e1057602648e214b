// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/climate/heat_system.h"

#include "solver/model/cell_forms.h"

#include <algorithm>
#include <cmath>

namespace overbend::solver
{
double linear_radiation(double emissivity, double temperature)
{
  return 4 * emissivity * stefan_boltzmann * std::pow(temperature, 3);
}

HeatSystem::HeatSystem(const Model &model, const HeatSurroundings &surroundings)
    : nodes(model.space.n_nodes)
{
  if (surroundings.bar)
    contacts = bar_contacts(model.space, *surroundings.bar);
  make_pattern(model, surroundings);
  air_load.assign(size(), 0.);
  add_cells(model);
  add_films(model, surroundings);
  add_glue(model, surroundings);
  if (surroundings.bar) {
    add_bar(*surroundings.bar);
    add_parked_iron(*surroundings.bar);
    const auto area = bar_free_area(model.space, *surroundings.bar);
    for (unsigned i = 0; i < area.size(); ++i)
      exchange(nodes + i, surroundings.bar->film * area[i], surroundings.bar->air);
  }
}

void HeatSystem::make_pattern(const Model &model, const HeatSurroundings &surroundings)
{
  const unsigned on_bar = surroundings.bar ? bar_nodes(*surroundings.bar).size() : 0;
  PatternBuilder pattern(nodes + on_bar);
  for (const auto &cell : model.space.cell_node)
    pattern.add_group({cell.begin(), cell.end()});
  for (const GluePoint &p : model.glue_point)
    if (p.lower >= 0)
      pattern.add_group({p.upper, static_cast<unsigned>(p.lower)});
  for (unsigned i = 0; i + 1 < on_bar; ++i)
    pattern.add_group({nodes + i, nodes + i + 1});
  for (const BarContact &c : contacts)
    pattern.add_group({c.node, nodes + c.on_bar[0].node, nodes + c.on_bar[1].node});
  capacity = pattern.build();
  conduction = capacity;
}

void HeatSystem::add_cells(const Model &model)
{
  const Space &space = model.space;
  for (unsigned c = 0; c < space.n_cells; ++c) {
    const PieceModel &piece = model.wood(model.wood_at_middle(c));
    const CellForms forms = cell_forms(space, c, model.grain(c)[0]);
    const double across = piece.conductivity_across, more = piece.conductivity_along - across;
    const auto &n = space.cell_node[c];
    for (unsigned a = 0; a < nodes_per_cell; ++a)
      for (unsigned b = 0; b < nodes_per_cell; ++b) {
        const unsigned ab = a * nodes_per_cell + b;
        capacity.at(n[a], n[b]) += piece.heat_capacity * forms.mass[ab];
        conduction.at(n[a], n[b]) += across * forms.spread[ab] + more * forms.along[ab];
      }
  }
}

void HeatSystem::exchange(unsigned unknown, double conductance, double air)
{
  conduction.at(unknown, unknown) += conductance;
  air_load[unknown] += conductance * air;
}

void HeatSystem::connect(unsigned a, unsigned b, double conductance)
{
  conduction.at(a, a) += conductance;
  conduction.at(b, b) += conductance;
  conduction.at(a, b) -= conductance;
  conduction.at(b, a) -= conductance;
}

void HeatSystem::add_films(const Model &model, const HeatSurroundings &surroundings)
{
  for (const auto &[id, film] : surroundings.film) {
    const auto faces = model.space.boundary.find(id);
    if (faces == model.space.boundary.end())
      continue;
    const auto &bar = surroundings.bar;
    const bool under_bar =
        bar && (bar->board_face == id || (bar->overhang_contact > 0 && bar->overhang_face == id));
    const double linear = film.conductance + linear_radiation(film.emissivity, film.air);
    for (const BoundaryFace &face : faces->second)
      for (unsigned q = 0; q < nodes_per_face; ++q) {
        const double covered = under_bar ? covered_share(model.space, face, q, *bar) : 0;
        const double area = face.weight[q] * (1 - covered);
        if (!(area > 0))
          continue;
        exchange(face.node[q], linear * area, film.air);
        if (film.emissivity > 0)
          radiators.push_back(
              {face.node[q], film.emissivity * stefan_boltzmann * area, linear * area, film.air});
      }
  }
}

void HeatSystem::add_glue(const Model &model, const HeatSurroundings &surroundings)
{
  for (const GluePoint &p : model.glue_point)
    if (p.lower >= 0)
      connect(p.upper, p.lower, surroundings.glue * p.weight);
    else
      exchange(p.upper, surroundings.body * p.weight, surroundings.body_temperature);
}

void HeatSystem::add_bar(const BarOnBoard &bar)
{
  const auto x = bar_nodes(bar);
  const double section = bar.width * bar.thickness;
  for (unsigned e = 0; e + 1 < x.size(); ++e) {
    const double length = x[e + 1] - x[e];
    const unsigned a = nodes + e, b = a + 1;
    connect(a, b, bar.conductivity * section / length);
    const double heat = bar.heat_capacity * section * length / 6;
    capacity.at(a, a) += 2 * heat;
    capacity.at(b, b) += 2 * heat;
    capacity.at(a, b) += heat;
    capacity.at(b, a) += heat;
  }
  // Contact: q = contact (w0 T0 + w1 T1 - T_node), and its share back to each bar node.
  for (const BarContact &c : contacts) {
    const unsigned n[3] = {c.node, nodes + c.on_bar[0].node, nodes + c.on_bar[1].node};
    const double w[3] = {-1, c.on_bar[0].weight, c.on_bar[1].weight};
    for (unsigned i = 0; i < 3; ++i)
      for (unsigned j = 0; j < 3; ++j)
        conduction.at(n[i], n[j]) += c.conductance * w[i] * w[j];
  }
  unit_power.assign(size(), 0.);
  const auto share = iron_shares(bar);
  std::copy(share.begin(), share.end(), unit_power.begin() + nodes);
  for (const BarWeight &w : bar_place(bar, bar.sensor))
    sensor_weights.push_back(w);
}

void HeatSystem::add_parked_iron(const BarOnBoard &bar)
{
  if (!(bar.iron_contact > 0) || !bar.on_board)
    return;
  parked_temperature = bar.iron_temperature;
  const double whole = bar.iron_contact * bar.width * (bar.iron_to - bar.iron_from);
  const auto share = iron_shares(bar);
  for (unsigned i = 0; i < share.size(); ++i)
    if (share[i] > 0) {
      parked.push_back({i, whole * share[i]});
      exchange(nodes + i, whole * share[i], bar.iron_temperature);
    }
}

double HeatSystem::parked_heat(const std::vector<double> &temperature) const
{
  double sum = 0;
  for (const BarWeight &w : parked)
    sum += w.weight * (parked_temperature - temperature[nodes + w.node]);
  return sum;
}

std::vector<double> HeatSystem::load(double time) const
{
  std::vector<double> result = air_load;
  if (source)
    source(time, result);
  return result;
}

std::vector<double> HeatSystem::radiation(const std::vector<double> &temperature) const
{
  std::vector<double> result(radiators.empty() ? 0 : size(), 0.);
  for (const Radiator &r : radiators) {
    // T^4 - T_air^4 - 4 T_air^3 (T - T_air), written so that nothing cancels
    const double d = temperature[r.unknown] - r.air, a = r.air;
    result[r.unknown] += r.strength * d * d * (6 * a * a + d * (4 * a + d));
  }
  return result;
}

double HeatSystem::surface_change(const std::vector<double> &a, const std::vector<double> &b) const
{
  double largest = 0;
  std::vector<double> conductance(a.size(), 0.);
  for (const Radiator &r : radiators)
    conductance[r.unknown] += r.conductance;
  for (const Radiator &r : radiators)
    largest = std::max(largest, std::abs(a[r.unknown] - b[r.unknown]) / conductance[r.unknown]);
  return largest;
}

double HeatSystem::sensor(const std::vector<double> &temperature) const
{
  double sum = 0;
  for (const BarWeight &w : sensor_weights)
    sum += w.weight * temperature[nodes + w.node];
  return sum;
}

double HeatSystem::heat_content(const std::vector<double> &temperature) const
{
  std::vector<double> heat(size(), 0.);
  capacity.add_times(temperature, heat);
  double sum = 0;
  for (const double h : heat)
    sum += h;
  return sum;
}
} // namespace overbend::solver
