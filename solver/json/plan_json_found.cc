// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/json/plan_json_parts.h"
#include "solver/readings/fret_surface.h"
#include "solver/readings/neck_angle.h"
#include "solver/verdict/verdict_need.h"

namespace overbend::solver
{
namespace
{
// What it was read on, the readings of the wood, and what the frets add to them.
void add_surface(const cases::Case &c, Json &all)
{
  const bool wood = c.readings.edge_on == cases::EdgeOn::wood;
  all["edge_on"] = wood ? "wood" : "frets";
  all["edge"] = edge_in_words(c);
  all["rests"] = rests_in_words(c);
  all["of_the_wood"] = json_of(found_wood(c));
  all["of_the_frets"] = json_of(of_surface(c));
  Json heights = Json::array();
  for (const auto &[fret, height] : c.readings.fret_heights)
    heights.push_back({{"fret", fret}, {"bass_m", height.bass}, {"treble_m", height.treble}});
  all["fret_heights"] = heights;
  if (const std::string words = frets_in_words(c); !words.empty())
    all["frets_in_words"] = words;
}

Json over_bridge(const NeckAngle &angle)
{
  return {
      {"read_m", angle.read},          {"by_bow_m", angle.by_bow},   {"straight_m", angle.straight},
      {"from_m", angle.from},          {"to_m", angle.to},           {"out_m", angle.out},
      {"angle_is_wrong", angle.wrong}, {"in_words", in_words(angle)}};
}
} // namespace

Json found_json(const cases::Case &c)
{
  const cases::Found &f = c.found;
  Json all = {{"bow_bass_m", f.bow_bass},
              {"bow_centre_m", f.bow_centre},
              {"bow_treble_m", f.bow_treble},
              {"twist_rad", f.twist ? Json(*f.twist) : Json("unknown")},
              {"rest_fret_near_nut", f.rest_fret_a},
              {"rest_fret_near_body", f.rest_fret_b},
              {"bow_fret", f.bow_fret}};
  add_surface(c, all);
  if (const auto angle = neck_angle(c, materials::tables().limits))
    all["over_bridge"] = over_bridge(*angle);
  all["strung_bow_m"] = f.strung_bow ? Json(*f.strung_bow) : Json("unknown");
  return all;
}
} // namespace overbend::solver
