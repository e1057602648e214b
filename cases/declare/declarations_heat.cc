// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/declare/declare.h"

// Iron, bar and thermometer.
namespace overbend::cases
{
namespace
{
void declare_bar(Table &heater)
{
  heater.choice("metal", {"steel", "carbon", "aluminium"}, OVERBEND_AT(result.heater.metal),
                "Bar that lies on the board and spreads the heat.", "aluminium");
  heater.length("width", OVERBEND_AT(result.heater.width), 5 * mm, 120 * mm, "Width of the bar.",
                "40 mm");
  heater.length("thickness", OVERBEND_AT(result.heater.thickness), 0.5 * mm, 50 * mm,
                "Thickness of the bar.", "10 mm");
  heater.position(
      "from", OVERBEND_AT(result.heater.from),
      "End of the bar at the nut; negative if it lies over the nut (taken out): a cold nut "
      "end locks that end of the glue line.",
      "-40 mm");
  heater.quantity("overhang_contact", Dimension::conductance,
                  OVERBEND_AT(result.heater.overhang_contact), 0, 1000,
                  "Heat from the part over the nut to the headstock's face under it: about 60 with "
                  "the gap packed with folded foil, 5 through air [E].",
                  "60 W/(m2 K)");
  heater.position("to", OVERBEND_AT(result.heater.to), "End of the bar at the body.", "join");
  Declaration &underside = heater.choice(
      "underside", {"flat", "shaped"}, OVERBEND_AT(result.heater.underside),
      "Underside of the bar: flat, which leaves air under its edges on a board with a radius, or "
      "shaped to the radius (or packed with foil). A blanket shapes itself.",
      "flat");
  underside.default_words = "`flat`; `shaped` for a blanket";
  heater.choice("frets", {"in", "out"}, OVERBEND_AT(result.heater.frets),
                "The bar lies on the frets, or they are out and it lies on the wood.", "in");
  // On frets, from below: 1 mm of air between the crowns is 0.026/1e-3 + 5 = 31 W/(m^2 K), and
  // frets 25 mm apart carry some 8 more (line_heat.h). From the trade: the board comes within some
  // 5 K of the bar, which at 15 W for a metre of 40 mm is 75. 60 lies between them.
  heater.quantity("contact", Dimension::conductance, OVERBEND_AT(contact), 5, 5000,
                  "Heat from bar to board where it touches, for its area and degree; unknown: "
                  "60 W/(m2 K) on frets (30 to 90), 400 on bare wood [E].",
                  "unknown");
  heater.quantity("film", Dimension::conductance, OVERBEND_AT(result.heater.film), 1, 100,
                  "Heat lost from the top of the bar to the air [E].", "10 W/(m2 K)");
}

void declare_iron(Table &heater)
{
  heater.choice("source", {"thermostat", "parked", "dabbed", "blanket"},
                OVERBEND_AT(result.heater.source),
                "What gives the heat: an iron or mat under a thermostat that holds the thermometer "
                "of `held_by`; an iron parked on the bar under its own thermostat, which holds its "
                "soleplate and nothing else; an iron dabbed on by hand, so that the thermometer "
                "shows its figure; a heating blanket under a thermostat, all along the bar.",
                "thermostat");
  heater.choice("held_by", {"bar", "probe"}, OVERBEND_AT(result.heater.held_by),
                "Thermometer that the heat is held by: that on the bar (bar_sensor), or the probe, "
                "which is to show its `hold_at`. By the probe, thermometers are looked at every "
                "two to five minutes and the one on the bar never passes bar_temperature.",
                "bar");
  heater
      .position("iron_from", OVERBEND_AT(result.heater.iron_from),
                "End of what the iron (or heating mat) touches, at the nut.", "-35 mm")
      .default_words = "`-35 mm`; the bar's end for a blanket";
  heater
      .position("iron_to", OVERBEND_AT(result.heater.iron_to),
                "End of what the iron (or heating mat) touches, at the body; an iron is moved to "
                "and fro between the two, a parked one stays.",
                "fret 12")
      .default_words = "`fret 12`; the bar's end for a blanket";
  heater.quantity("power", Dimension::power, OVERBEND_AT(power), 1, 2500,
                  "Most heat the iron gives: its rating under a thermostat, the average of the "
                  "hand when dabbed; unknown: 100 W, dabbed 60 W [E]. Not for a parked iron.",
                  "unknown");
  heater.quantity("iron_temperature", Dimension::temperature,
                  OVERBEND_AT(result.heater.iron_temperature), celsius(40), celsius(230),
                  "Parked: soleplate of the iron, held by its own thermostat; the lowest mark of a "
                  "household iron is about 110 degC (230 degF) [E].",
                  "110 degC");
  // 6 mm of plywood: 0.12 W/(m K) over 6e-3 m.
  heater.quantity("iron_contact", Dimension::conductance, OVERBEND_AT(result.heater.iron_contact),
                  1, 5000,
                  "Parked: heat from the soleplate to the bar, for its area and degree: about 20 "
                  "through a slip of plywood of 6 mm (0.24 in), 300 to 1000 metal on metal [E].",
                  "20 W/(m2 K)");
  heater.quantity("bar_temperature", Dimension::temperature,
                  OVERBEND_AT(result.heater.bar_temperature), celsius(25), celsius(110),
                  "Bar temperature to hold; held by the probe, what the bar never passes. Wood, "
                  "glue and finish set the limit, see the cautions.",
                  "57 degC");
  heater.quantity("overshoot", Dimension::temperature_difference, OVERBEND_AT(overshoot), 0, 30,
                  "By how much the thermometer that holds the heat may pass its figure: what a "
                  "plan keeps free below each limit; unknown: 3 K (5 degF) under a thermostat "
                  "or a blanket, 6 K (11 degF) dabbed or parked [E].",
                  "unknown");
  heater.position("bar_sensor", OVERBEND_AT(result.heater.bar_sensor),
                  "Where on the bar that temperature is read.", "fret 6");
}

void declare_probe(Declarations &lines)
{
  Table probe(lines, "probe");
  probe.position("position", OVERBEND_AT(result.probe.x), "Where along the neck the probe sits.",
                 "fret 7");
  probe.quantity("across", Dimension::number, OVERBEND_AT(result.probe.across), -1, 1,
                 "Across the neck: -1 at the bass edge, 0 in the middle, 1 at the treble edge.",
                 "1");
  probe.length("height", OVERBEND_AT(result.probe.height), -30 * mm, 12 * mm,
               "Above the board's glue line; 0 is in it, the thickness of the board is on it "
               "between two frets.",
               "0 mm");
  probe.quantity("hold_at", Dimension::temperature, OVERBEND_AT(result.probe.hold_at), celsius(25),
                 celsius(80), "Heat held by the probe: what it is to show.", "48 degC");
}
} // namespace

void declare_heat(Declarations &lines)
{
  Table heater(lines, "heater");
  declare_bar(heater);
  declare_iron(heater);
  declare_probe(lines);
}
} // namespace overbend::cases
