// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/declare/declare.h"

// The work: the default schedule, a phase of one's own, the target, and the numerics.
namespace overbend::cases
{
const std::vector<SectionNote> &phase_notes()
{
  static const std::vector<SectionNote> notes = {
      {"store", "Stands somewhere: clamp and heat off. Give the air; strings may be on."},
      {"condition", "Waits for wood and air to agree: clamp and heat off."},
      {"clamp",
       "Cradle and cords on, and the stop block if the bench has one; the cords are pulled "
       "to a reading (straight, unless given)."},
      {"heat", "Bar on and heat on."},
      {"hold", "Nothing changes."},
      {"reread", "Read again hot, and cords slacked off or taken up to the reading; a stop block "
                 "is set to it."},
      {"cool", "Heat off; the clamp and the wrap stay."},
      {"release", "Cradle, cords and block off, heat off, wrap off."},
      {"rest", "Heat off; nothing else changes."},
      {"string up", "Strings on at pitch, nut in, the rod as the target asks."},
      {"warm free", "Heat on without clamp and strings: what is slip goes back by itself."},
      {"play", "Lives with its strings on or off as they are, clamp and heat off, in air that "
               "changes: by the months of [climate], or by a table (climate_file)."},
  };
  return notes;
}

namespace
{
void declare_schedule(Declarations &lines)
{
  Table schedule(lines, "schedule");
  schedule.flag("warm_free", OVERBEND_AT(result.schedule.warm_free),
                "Warm the neck first without cords and strings, and read again: tells how much of "
                "the warp is slip.",
                "false");
  schedule.time("warm_free_time", OVERBEND_AT(result.schedule.warm_free_time), 5 * minute, 6 * hour,
                "How long to warm it free; it then cools for two hours.", "30 min");
  schedule.time("clamp", OVERBEND_AT(result.schedule.clamp), 1 * minute, 7 * day,
                "Clamped cold before the heat comes on.", "20 min");
  schedule.time("heat", OVERBEND_AT(result.schedule.heat), 1 * minute, 12 * hour,
                "Heat on, up to the re-reading, when the line is soft.", "45 min");
  schedule.flag("reread", OVERBEND_AT(result.schedule.reread),
                "Read again hot and pull to the overbend then: cold the cords only bring the neck "
                "straight.",
                "true");
  schedule.time("reread_time", OVERBEND_AT(result.schedule.reread_time), 1 * minute, 2 * hour,
                "What the re-reading takes.", "5 min");
  schedule.flag("second_reread", OVERBEND_AT(result.schedule.second_reread),
                "Read hot once more halfway through the hold of the first pass: what the neck has "
                "run on by then tells how fast its line is. A plan does so where a fast line would "
                "hold that pass back.",
                "false");
  schedule.time("hold", OVERBEND_AT(result.schedule.hold), 1 * minute, 48 * hour,
                "Soaking hot after that.", "90 min");
  schedule.time("cool", OVERBEND_AT(result.schedule.cool), 1 * minute, 14 * day,
                "Cooling in the clamp: at least 4 h, overnight is usual.", "14 h");
  schedule.time("release", OVERBEND_AT(result.schedule.release), 1 * minute, 7 * day,
                "First reading after the cords come off.", "1 h");
  schedule.time("rest", OVERBEND_AT(result.schedule.rest), 1 * minute, 1 * year,
                "Left alone, strings off, before stringing up.", "24 h");
  schedule.time("play", OVERBEND_AT(result.schedule.play), 0, 30 * year,
                "Lived with after the target is read, strung, in the air of [climate]; 0 for none.",
                "0 days");
  schedule.choice("month", month_names(), OVERBEND_AT(result.schedule.month),
                  "Month in which that begins.", "january");
  schedule.flag(
      "wrap", OVERBEND_AT(result.schedule.wrap),
      "All wood that the bar does not cover wrapped in dry cloth while hot and while cooling, "
      "never bar or iron: back, headstock, heel, the board's sides and ends and its top beside "
      "the bar; once the bar is off, all of its top. It keeps heat (wrap_conductance) and slows "
      "the water (wrap_resistance).",
      "false");
  schedule.flag(
      "wrap_foil", OVERBEND_AT(result.schedule.wrap_foil),
      "Kitchen foil around the neck under the cloth of `wrap`: it holds back ten times as "
      "much of the wood's water (3e8 s/m [E]), so that ends and edges do not dry.",
      "false");
  schedule.flag("nut", OVERBEND_AT(result.schedule.nut),
                "The nut stays in its slot in the clamp: only with a bar that ends at the board.",
                "false");
}

void declare_phase_bench(Table &phase)
{
  phase.flag("strings", OVERBEND_AT(phase.strings), "Strings on at pitch.");
  phase.choice("rod", {"slack", "set", "broken", "seized"}, OVERBEND_AT(phase.rod),
               "State of the rod.");
  phase.flag("cradle", OVERBEND_AT(phase.cradle), "Cradle under the back.");
  phase.flag("cords", OVERBEND_AT(phase.cords),
             "What bends the neck is on: cords, strap, bar or caul.");
  phase.flag("block", OVERBEND_AT(phase.block),
             "Stop block below the headstock. A phase that pulls to a reading takes it out "
             "and puts it under the headstock again where that then stands.");
  phase.flag("nut", OVERBEND_AT(phase.nut), "Nut in its slot.");
  phase.flag("heater", OVERBEND_AT(phase.heater), "Bar on the board and heat on.");
  phase.quantity("bar_temperature", Dimension::temperature, OVERBEND_AT(phase.bar_temperature),
                 celsius(25), celsius(110), "Bar temperature to hold.");
}

void declare_phase_climate(Table &phase)
{
  phase
      .choice("month", month_names(), OVERBEND_AT(phase.climate.month),
              "Play only: month in which it begins.")
      .default_words = "`january`";
  phase
      .text("climate_file", OVERBEND_AT(phase.climate.file),
            "Play only: table of the air (CSV), beside the case file, instead of [climate]. First "
            "line: time [h], temperature [degC], humidity [%], or dew point [degC] for the last.")
      .default_words = "by [climate]";
  phase
      .flag("climate_repeats", OVERBEND_AT(phase.climate.repeats),
            "Play only: a table that ends before the phase begins anew.")
      .default_words = "`true`";
}

void declare_phase(Declarations &lines)
{
  Table phase(lines, "phase");
  std::vector<std::string> kinds;
  for (const SectionNote &note : phase_notes())
    kinds.push_back(note.name);
  phase.choice("kind", kinds, OVERBEND_AT(phase.kind), "What is done.").default_words =
      "**to be given**";
  phase.text("name", OVERBEND_AT(phase.name), "Name to show.").default_words = "the kind";
  phase.time("duration", OVERBEND_AT(phase.duration), 1, 200 * year, "How long it lasts.")
      .default_words = "**to be given**";
  phase.quantity("air_temperature", Dimension::temperature, OVERBEND_AT(phase.air.temperature),
                 celsius(-40), celsius(95), "Air around the instrument.");
  phase
      .quantity("humidity", Dimension::fraction, OVERBEND_AT(phase.air.humidity), 0, 1,
                "Relative humidity of that air. Not given with another temperature: the air keeps "
                "its water, so that warmed air is dry.")
      .default_words = "as it was";
  phase
      .quantity("dew_point", Dimension::temperature, OVERBEND_AT(phase_dew_point), celsius(-60),
                celsius(95), "Dew point of that air, instead of the relative humidity.")
      .default_words = "by the humidity";
  declare_phase_climate(phase);
  phase.quantity("film", Dimension::conductance, OVERBEND_AT(phase.air.film), 1, 100,
                 "Heat lost to it from a free face.");
  phase.quantity("wrap_conductance", Dimension::conductance,
                 OVERBEND_AT(phase.air.wrap_conductance), 0.5, 100, "Heat through the wrap.");
  phase.quantity("wrap_resistance", Dimension::water_resistance,
                 OVERBEND_AT(phase.air.wrap_resistance), 0, 1e10,
                 "What the wrap holds back of the wood's water.");
  phase.flag("wrapped", OVERBEND_AT(phase.air.wrapped),
             "All wood that the bar does not cover wrapped in dry cloth.");
  declare_phase_bench(phase);
  phase
      .choice("pull", {"none", "take-up", "to reading"}, OVERBEND_AT(phase.pull.kind),
              "Cords: left as they are, taken up by a length, or pulled to a reading.")
      .default_words = "by the kind";
  phase
      .length("take_up_bass", OVERBEND_AT(phase.pull.take_up_bass), -50 * mm, 50 * mm,
              "Cord taken up on the bass side, slackening negative.")
      .default_words = "0";
  phase
      .length("take_up_treble", OVERBEND_AT(phase.pull.take_up_treble), -50 * mm, 50 * mm,
              "Cord taken up on the treble side.")
      .default_words = "0";
  phase
      .length("bow", OVERBEND_AT(phase.pull.bow), -15 * mm, 15 * mm,
              "Bow to pull to, on the centre line; past straight is negative.")
      .default_words = "0";
  phase
      .quantity("twist", Dimension::angle, OVERBEND_AT(phase.pull.twist), -5 * degree, 5 * degree,
                "Twist to pull to.")
      .default_words = "0";
}

void declare_target(Declarations &lines)
{
  Table target(lines, "target");
  target.length("relief", OVERBEND_AT(result.target.relief), -2 * mm, 3 * mm,
                "Bow wanted strung at pitch, at the fret of the readings.");
  target.quantity("twist", Dimension::angle, OVERBEND_AT(result.target.twist), -2 * degree,
                  2 * degree, "Twist wanted.", "0 deg");
  target.time("after_release", OVERBEND_AT(result.target.after_release), 1 * minute, 30 * year,
              "When that is to be read, counted from the release.", "1 week");
  target.choice("rod", {"slack", "set", "broken", "seized"}, OVERBEND_AT(result.target.rod),
                "Where the rod is then.", "slack");
  target.length("bow_tolerance", OVERBEND_AT(result.target.bow_tolerance), 0.001 * mm, 1 * mm,
                "How near the plan must come.", "0.02 mm");
  target.quantity("twist_tolerance", Dimension::angle, OVERBEND_AT(result.target.twist_tolerance),
                  0.001 * degree, 1 * degree, "How near in twist.", "0.03 deg");
}

void declare_numerics(Declarations &lines)
{
  Table numerics(lines, "numerics");
  numerics.quantity("resolution", Dimension::number, OVERBEND_AT(result.numerics.resolution), 0.5,
                    4, "Fineness of the mesh: 2 has about twice the cells each way.", "1");
  numerics.length("bow_error", OVERBEND_AT(result.numerics.bow_error), 1e-8, 0.1 * mm,
                  "Error in the bow allowed to one time step.", "0.002 mm");
}
} // namespace

void declare_work(Declarations &lines)
{
  declare_schedule(lines);
  declare_phase(lines);
  declare_target(lines);
  declare_numerics(lines);
}
} // namespace overbend::cases
