// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/declare/declare.h"

// What is fitted to the neck: glue, strings, tuners, finish and binding.
namespace overbend::cases
{
namespace
{
void declare_glue(Declarations &lines)
{
  Table glue(lines, "glue");
  glue.name(
      "board", OVERBEND_AT(result.board_glue.kind),
      "Glue under the fingerboard, from the list of glues, or unknown; \"one piece\" where the "
      "frets sit in the shaft itself and there is no glue line.",
      "unknown");
  glue.length("board_thickness", OVERBEND_AT(result.board_glue.thickness), 0.02 * mm, 1 * mm,
              "Thickness of that glue line; 0.05 to 0.15 mm (2 to 6 thou) is a good joint [E].",
              "0.1 mm");
  glue.name("scarf", OVERBEND_AT(result.scarf_glue.kind),
            "Glue of the scarf joint, if there is one, or unknown.", "unknown");
  glue.length("scarf_thickness", OVERBEND_AT(result.scarf_glue.thickness), 0.02 * mm, 1 * mm,
              "Thickness of that glue line.", "0.1 mm");
}

void declare_strings(Declarations &lines)
{
  Table strings(lines, "strings");
  strings.name("set", OVERBEND_AT(result.strings.set),
               "Set to be put on after the repair, from the list of strings.");
  strings.quantity("semitones", Dimension::number, OVERBEND_AT(result.strings.pitch_shift), -7, 3,
                   "Tuning against the set's usual pitch: -1 is a semitone down.", "0");
  strings.length("height_at_nut", OVERBEND_AT(result.strings.height_at_nut), 0.5 * mm, 6 * mm,
                 "Middle of the strings above the top of the board at the nut.");
  strings.length("height_at_join", OVERBEND_AT(result.strings.height_at_join), 1 * mm, 15 * mm,
                 "Middle of the strings above the top of the board at the body join.");
  strings.name("found_set", OVERBEND_AT(result.strings_found.set),
               "Set the neck lived under; \"as set\" for the same.", "as set");
  strings.quantity("found_semitones", Dimension::number,
                   OVERBEND_AT(result.strings_found.pitch_shift), -7, 3,
                   "Tuning the neck lived under.", "0");
}

void declare_tuners(Declarations &lines)
{
  Table tuners(lines, "tuners");
  tuners.name("kind", OVERBEND_AT(result.tuners.kind), "Tuners, from the list of tuners.");
  tuners.choice("layout", {"both sides", "bass line", "treble line"},
                OVERBEND_AT(result.tuners.layout),
                "Posts on both sides, or all in a line on the bass or the treble side.");
  tuners.length("first_post", OVERBEND_AT(result.tuners.first_post), 10 * mm, 150 * mm,
                "From the nut to the nearest post, along the headstock.");
  tuners.length("last_post", OVERBEND_AT(result.tuners.last_post), 20 * mm, 300 * mm,
                "From the nut to the farthest post.");
  tuners.length("across", OVERBEND_AT(result.tuners.across), 0, 100 * mm,
                "Both sides: distance between the two rows. In line: distance from the centre "
                "line.");
}

void declare_finish(Declarations &lines)
{
  Table finish(lines, "finish");
  const std::vector<std::string> kinds = {"bare",    "oil",       "shellac",      "nitro lacquer",
                                          "acrylic", "polyester", "polyurethane", "unknown"};
  const std::vector<std::string> conditions = {"sound", "worn"};
  finish.choice("kind", kinds, OVERBEND_AT(result.finish),
                "Finish of the neck. A solvent drop in the rod pocket may tell; never on show.",
                "unknown");
  finish.choice("condition", conditions, OVERBEND_AT(result.faces.back.condition),
                "Sound, or worn through or checked so that moisture passes.", "sound");
  finish.choice("board", kinds, OVERBEND_AT(result.faces.board.kind),
                "Finish of the fingerboard, top and edges.", "bare");
  finish.choice("board_condition", conditions, OVERBEND_AT(result.faces.board.condition),
                "Sound or worn, of the fingerboard.", "sound");
  finish.choice("headstock", kinds, OVERBEND_AT(result.faces.headstock.kind),
                "Finish of the headstock; unknown: as the neck.", "unknown");
  finish.choice("headstock_condition", conditions, OVERBEND_AT(result.faces.headstock.condition),
                "Sound or worn, of the headstock.", "sound");
  finish.choice("binding", {"none", "celluloid", "plastic", "wood", "unknown"},
                OVERBEND_AT(result.binding),
                "Binding, dots and veneers. Old translucent plastic counts as celluloid until "
                "shown otherwise.",
                "unknown");
}
} // namespace

void declare_fittings(Declarations &lines)
{
  declare_glue(lines);
  declare_strings(lines);
  declare_tuners(lines);
  declare_finish(lines);
}
} // namespace overbend::cases
