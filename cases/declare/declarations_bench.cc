// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/declare/declare.h"

// What the bench found, how it came about, and the bench itself. Heat: declarations_heat.cc.
namespace overbend::cases
{
namespace
{
void declare_found(Declarations &lines)
{
  Table found(lines, "found");
  Declaration &bow = found.length(
      "bow", OVERBEND_AT(result.found.bow_centre), -15 * mm, 15 * mm,
      "Bow on the centre line, strings off, rod slack: gap under the chord over the two rest "
      "frets. Forward positive, back-bow negative.");
  bow.to_be_given = true;
  bow.example = "1 mm";
  found.length("bow_bass", OVERBEND_AT(bow_bass), -15 * mm, 15 * mm,
               "The same along the bass edge; unknown: as the centre.", "unknown");
  found.length("bow_treble", OVERBEND_AT(bow_treble), -15 * mm, 15 * mm,
               "The same along the treble edge; unknown: as the centre.", "unknown");
  found.quantity("twist", Dimension::angle, OVERBEND_AT(result.found.twist), -5 * degree,
                 5 * degree,
                 "Winding sticks on the two rest frets: treble corner of the nut raised towards "
                 "the strings positive.",
                 "unknown");
  found.fret("rest_fret_near_nut", OVERBEND_AT(result.found.rest_fret_a), "",
             "Fret under the nut end of the straightedge.", "1");
  found.fret("rest_fret_near_body", OVERBEND_AT(result.found.rest_fret_b), "join",
             "Fret under its body end, or join for the body-join fret.", "join");
  found.fret("bow_fret", OVERBEND_AT(result.found.bow_fret), "middle",
             "Fret at which the bows were read, or middle for the one nearest to half way.",
             "middle");
  found.length("strung_bow", OVERBEND_AT(result.found.strung_bow), -15 * mm, 15 * mm,
               "Bow on the centre line strung at pitch, rod as found; tells the neck's stiffness.",
               "unknown");
  found.length(
      "strung_bow_rod_slack", OVERBEND_AT(result.found.strung_bow_rod_slack), -15 * mm, 15 * mm,
      "The same with the rod slack: strings alone, which tells the stiffness best.", "unknown");
  found.length("bow_rod_loaded", OVERBEND_AT(result.found.bow_rod_loaded), -15 * mm, 15 * mm,
               "Bow on the centre line with the strings off and the rod still loaded as found, "
               "read before it was slackened for `bow`; tells what the rod does.",
               "unknown");
  found.flag("rod_loaded", OVERBEND_AT(result.found.rod_loaded),
             "The rod was not slack while `bow` was read.", "false");
  found.flag("open_crack", OVERBEND_AT(result.found.open_crack),
             "There is an open crack in shaft, headstock or heel.", "false");
  found.flag("angle_only", OVERBEND_AT(result.found.angle_only),
             "The board is straight; only the string height or the neck angle is wrong.", "false");
}

void declare_first_pass(Declarations &lines)
{
  Table pass(lines, "first_pass");
  pass.length("overbend", OVERBEND_AT(result.first_pass.overbend), -15 * mm, 15 * mm,
              "Bow on the centre line that the clamp was set to at the hot reading.", "unknown");
  pass.quantity("overbend_twist", Dimension::angle, OVERBEND_AT(result.first_pass.overbend_twist),
                -5 * degree, 5 * degree, "Twist that it was set to.", "0 deg");
  pass.length("let_up_to", OVERBEND_AT(result.first_pass.let_up_to), -15 * mm, 15 * mm,
              "Bow that it was let up to at a second hot reading, halfway through the hold; leave "
              "it out where it was left as it was.",
              "unknown");
  pass.quantity("let_up_twist", Dimension::angle, OVERBEND_AT(result.first_pass.let_up_twist),
                -5 * degree, 5 * degree, "Twist then; unknown: overbend_twist.", "unknown");
  pass.length("bow", OVERBEND_AT(result.first_pass.bow), -15 * mm, 15 * mm,
              "Bow on the centre line after it, released and rested, strings off, read like "
              "found.bow.",
              "unknown");
  pass.quantity("twist", Dimension::angle, OVERBEND_AT(result.first_pass.twist), -5 * degree,
                5 * degree, "Twist then; unknown: as this line would have left it.", "unknown");
  pass.quantity("bar_temperature", Dimension::temperature,
                OVERBEND_AT(result.first_pass.bar_temperature), celsius(25), celsius(110),
                "What the bar was held at; unknown: as planned.", "unknown");
  pass.time("hold", OVERBEND_AT(result.first_pass.hold), 0, 3 * day,
            "Time hot after the hot reading; unknown: as planned.", "unknown");
}

// Tops of frets stand 0.9 to 1.5 mm over the board [E]: more than that is a slip of the pen.
constexpr double fret_top = 1.5 * mm;

void declare_readings(Declarations &lines)
{
  Table readings(lines, "readings");
  readings.choice("edge_on", {"frets", "wood"}, OVERBEND_AT(result.readings.edge_on),
                  "What edge, sticks and a string held down are read on: the tops of the frets, or "
                  "the wood between them with a notched edge.",
                  "frets");
  readings.fret_heights(
      "fret_heights", OVERBEND_AT(result.readings.fret_heights), -fret_top, fret_top,
      "Worn and high frets against the level ones, fret by fret, low negative: \"5: -2 thou\", "
      "\"1-4: -0.05 mm, 12: 3 thou\", of one side \"7 treble: -3 thou\". An edge on the frets "
      "rests on them as they are; one on the wood does not see them.",
      "level");
  readings.length("over_bridge", OVERBEND_AT(result.readings.over_bridge), -30 * mm, 30 * mm,
                  "Neck angle, strings off: a straightedge along the frets from the rest fret near "
                  "the nut, carried on to the bridge, clears its top by this; negative if it meets "
                  "the bridge below its top. Where the bridge has a fixed height only.",
                  "unknown");
  readings.length("over_bridge_from", OVERBEND_AT(result.readings.over_bridge_from), -30 * mm,
                  30 * mm,
                  "The least of it with a right neck angle; unknown where the bridge can be raised "
                  "and lowered.",
                  "unknown");
  readings.length("over_bridge_to", OVERBEND_AT(result.readings.over_bridge_to), -30 * mm, 30 * mm,
                  "The most of it with a right neck angle.", "unknown");
}

void declare_warp(Declarations &lines)
{
  Table warp(lines, "warp");
  warp.choice("cause", {"hot strung", "years of pull", "unknown"}, OVERBEND_AT(result.warp.cause),
              "How the neck got there: hot with its strings on, years of string pull, or unknown.",
              "unknown");
  warp.quantity("temperature", Dimension::temperature, OVERBEND_AT(result.warp.temperature),
                celsius(25), celsius(95), "Hot strung: hottest air around the instrument.",
                "65 degC")
      .only_with = "hot strung";
  warp.time("hot_time", OVERBEND_AT(result.warp.hot_time), 5 * minute, 12 * week,
            "Hot strung: time at that temperature, all hot days together.", "4 h")
      .only_with = "hot strung";
  warp.choice(
          "kept_in", {"case", "open"}, OVERBEND_AT(result.warp.kept_in),
          "Hot strung: in its closed case, where the wood keeps its water, or in the open (on a "
          "wall, on a seat), where it meets the dry hot air. In cars and attics instruments "
          "mostly lie in their cases [E].",
          "case")
      .only_with = "hot strung";
  warp.time("pull_time", OVERBEND_AT(result.warp.pull_time), 1 * day, 200 * year,
            "Years of pull: time under string pull.", "20 years")
      .only_with = "years of pull";
  warp.quantity("slip_share", Dimension::fraction, OVERBEND_AT(result.warp.slip_share), 0, 1,
                "Unknown cause: share of the bow taken as slip of the glue line; the rest is "
                "taken to be in the wood.",
                "50 %")
      .only_with = "unknown";
  warp.time("strings_off_for", OVERBEND_AT(result.warp.rest_time), 0, 100 * year,
            "Time since the strings came off.", "1 day");
}

void declare_room(Declarations &lines)
{
  Table room(lines, "room");
  room.quantity("temperature", Dimension::temperature, OVERBEND_AT(result.room.temperature),
                celsius(0), celsius(45), "Air of the shop.", "21 degC");
  room.quantity("humidity", Dimension::fraction, OVERBEND_AT(result.room.humidity), 0.05, 0.98,
                "Relative humidity of the shop.", "50 %");
  room.quantity("dew_point", Dimension::temperature, OVERBEND_AT(room_dew_point), celsius(-40),
                celsius(45), "Dew point of the shop, instead of the relative humidity.", "unknown");
  room.quantity("film", Dimension::conductance, OVERBEND_AT(result.room.film), 1, 100,
                "Heat carried off by still air from a free face, for its area and degree; what it "
                "radiates, about 5, comes on top [E].",
                "4.5 W/(m2 K)");
  room.quantity(
      "wrap_conductance", Dimension::conductance, OVERBEND_AT(result.room.wrap_conductance), 0.5,
      100,
      "Heat through a dry cloth around all wood that the bar does not cover, for its area "
      "and degree [E].",
      "4 W/(m2 K)");
  // The cloth passes as much heat as a film of 4 W/(m^2 K) and is as thick as 6.5 mm of still air.
  // Vapour through that much air, 2.5e-5 m^2/s, meets 1.4e6 s/m of moisture content. But bare wood
  // in still air (4.5 W/(m^2 K)) is measured to hold back 2.2e7 s/m at 9 % (finishes.toml), some
  // fifteen times what its film of air should: whatever does that, a cloth keeps 4.5/4 times as
  // much of it, 2.5e7. The lower end is air alone, the upper several folds or a film under them.
  room.quantity("wrap_resistance", Dimension::water_resistance,
                OVERBEND_AT(result.room.wrap_resistance), 0, 1e10,
                "What that cloth holds back of the water that the warm wood gives off, behind the "
                "finish: about 3e7 for one fold of dry cloth, from 2e6 for a loose one to 3e8 for "
                "several folds or film under them; bare wood in still air has 2e7 [E].",
                "3e7 s/m");
}
} // namespace

void declare_bench(Declarations &lines)
{
  declare_found(lines);
  declare_first_pass(lines);
  declare_readings(lines);
  declare_warp(lines);
  declare_room(lines);
  declare_heat(lines);
  declare_bench_itself(lines);
}
} // namespace overbend::cases
