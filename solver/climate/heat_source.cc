// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/climate/heat_source.h"

#include "materials/tables.h"
#include "mesh/names.h"
#include "mesh/neck_profile.h"

#include <cmath>
#include <stdexcept>

namespace overbend::solver
{
namespace
{
std::string table_name(cases::BarMaterial material)
{
  switch (material) {
  case cases::BarMaterial::steel:
    return "steel";
  case cases::BarMaterial::carbon:
    return "carbon";
  case cases::BarMaterial::aluminium:
    return "aluminium";
  }
  throw std::logic_error("unknown material of the bar");
}
} // namespace

Vec3 probe_place(const cases::Case &the_case)
{
  const cases::Probe &probe = the_case.probe;
  const double half = mesh::NeckProfile(the_case.neck).half_width(probe.x);
  return {probe.x, probe.across * half, probe.height};
}

HeatSource heat_source(const Model &model, const cases::Case &the_case)
{
  HeatSource source(the_case.heater);
  const double radius = the_case.neck.board_radius;
  if (std::isfinite(radius) && the_case.heater.underside == cases::Underside::flat)
    source.board_radius = radius;
  if (the_case.heater.held_by == cases::HeldBy::probe) {
    source.probe = find_point(model.space, probe_place(the_case));
    source.hold_at = the_case.probe.hold_at;
  }
  return source;
}

BarOnBoard bar_outline(const cases::Heater &heater)
{
  BarOnBoard bar;
  bar.width = heater.width;
  bar.thickness = heater.thickness;
  bar.from = heater.from;
  bar.to = heater.to;
  bar.board_face = static_cast<unsigned>(mesh::Face::board_top);
  bar.overhang_face = static_cast<unsigned>(mesh::Face::headstock_face);
  return bar;
}

BarOnBoard make_bar(const HeatSource &source)
{
  const cases::Heater &heater = source.heater;
  const materials::Bar &metal = materials::tables().bar(table_name(heater.metal));
  BarOnBoard bar = bar_outline(heater);
  bar.conductivity = metal.conductivity;
  bar.heat_capacity = metal.density * metal.heat_capacity;
  bar.contact = heater.contact;
  bar.board_radius = source.board_radius;
  bar.film = heater.film;
  bar.iron_from = heater.iron_from;
  bar.iron_to = heater.iron_to;
  if (heater.source == cases::HeatSource::parked) {
    bar.iron_contact = heater.iron_contact;
    bar.iron_temperature = heater.iron_temperature;
  }
  bar.sensor = heater.bar_sensor;
  bar.overhang_contact = heater.overhang_contact;
  return bar;
}
} // namespace overbend::solver
