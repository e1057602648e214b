// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/declare/declare.h"

// The neck: sizes, woods, headstock, heel and rod. Ranges enclose reference sizes of necks from
// ukulele to long-scale bass with a margin; they catch slips of the pen, not odd instruments [E].
namespace overbend::cases
{
namespace
{
// Single specimens of spruce went from 0.001 to 0.035 against a mean of about 0.006 for each unit
// of moisture (Bengtsson 2001).
constexpr double least_swelling = 0.1, most_swelling = 10;
constexpr const char *swelling_sentence =
    "Swelling of this blank along the grain, for that of its wood in the tables. Blanks of one "
    "kind "
    "differ by a factor of ten and more, and the difference between board and shaft bends a neck "
    "that dries. Nobody can measure it on a finished neck: try what it would do.";

void declare_sizes(Declarations &lines)
{
  Table neck(lines, "neck");
  neck.length("scale_length", OVERBEND_AT(result.neck.scale_length), 0.3, 1.0,
              "Open string from nut to bridge, without compensation.");
  neck.count("frets", OVERBEND_AT(result.neck.frets), 5, 36, "Number of frets on the board.");
  neck.count("join_fret", OVERBEND_AT(result.neck.join_fret), 5, 30,
             "Fret over the place where the body begins to hold the neck.");
  neck.length("nut_width", OVERBEND_AT(result.neck.nut_width), 20 * mm, 80 * mm,
              "Width of the board at the nut.");
  neck.length("width_at_12", OVERBEND_AT(result.neck.width_at_12), 25 * mm, 100 * mm,
              "Width of the board at fret 12.");
  neck.length("depth_at_1", OVERBEND_AT(result.neck.depth_at_1), 12 * mm, 40 * mm,
              "Depth of shaft and board together at fret 1, with callipers between the frets.");
  neck.length("depth_at_12", OVERBEND_AT(result.neck.depth_at_12), 12 * mm, 45 * mm,
              "Depth of shaft and board together at fret 12; before the heel if that comes first.");
  neck.quantity("back_exponent", Dimension::number, OVERBEND_AT(result.neck.back_exponent), 1.6, 6,
                "Roundness of the back: 2 is half an ellipse, larger has squarer shoulders.",
                "2.2");
}

void declare_shaft(Declarations &lines)
{
  Table shaft(lines, "shaft");
  shaft.name("wood", OVERBEND_AT(result.neck.shaft.wood),
             "Wood of the shaft, from the list of woods.");
  shaft.grain("grain", OVERBEND_AT(result.neck.shaft.grain.ring_angle),
              "How the rings lie in the end grain: flat, rift, quarter, or their angle to the "
              "board.",
              "flat");
  shaft.quantity("run_out_across", Dimension::slope,
                 OVERBEND_AT(result.neck.shaft.grain.run_out_across), -0.35, 0.35,
                 "Slope of the grain seen from the front, towards the treble side positive.",
                 "0 %");
  shaft.quantity("run_out_depth", Dimension::slope,
                 OVERBEND_AT(result.neck.shaft.grain.run_out_depth), -0.35, 0.35,
                 "Slope of the grain seen from the side, rising towards the body positive.", "0 %");
  shaft.quantity("swelling_along", Dimension::fraction,
                 OVERBEND_AT(result.neck.shaft.swelling_along), least_swelling, most_swelling,
                 swelling_sentence, "100 %");
  declare_other_end(shaft, "at_body", "at the body join",
                    OVERBEND_AT(result.neck.shaft.grain.ring_angle_at_end),
                    OVERBEND_AT(result.neck.shaft.grain.run_out_across_at_end),
                    OVERBEND_AT(result.neck.shaft.grain.run_out_depth_at_end));
}

void declare_board(Declarations &lines)
{
  Table board(lines, "board");
  board.name("wood", OVERBEND_AT(result.neck.board.wood),
             "Wood of the fingerboard, from the list of woods.");
  board.grain("grain", OVERBEND_AT(result.neck.board.grain.ring_angle),
              "How the rings lie in the end grain: flat, rift, quarter, or their angle to the "
              "glue line.",
              "quarter");
  board.quantity("run_out_across", Dimension::slope,
                 OVERBEND_AT(result.neck.board.grain.run_out_across), -0.35, 0.35,
                 "Slope of the grain seen from the front, towards the treble side positive.",
                 "0 %");
  board.quantity("run_out_depth", Dimension::slope,
                 OVERBEND_AT(result.neck.board.grain.run_out_depth), -0.35, 0.35,
                 "Slope of the grain seen from the side, rising towards the body positive.", "0 %");
  board.quantity("swelling_along", Dimension::fraction,
                 OVERBEND_AT(result.neck.board.swelling_along), least_swelling, most_swelling,
                 swelling_sentence, "100 %");
  declare_other_end(board, "at_body", "at its body end",
                    OVERBEND_AT(result.neck.board.grain.ring_angle_at_end),
                    OVERBEND_AT(result.neck.board.grain.run_out_across_at_end),
                    OVERBEND_AT(result.neck.board.grain.run_out_depth_at_end));
  board.length("thickness", OVERBEND_AT(result.neck.board_thickness), 1.5 * mm, 12 * mm,
               "Thickness along the centre line.");
  Declaration &radius = board.length("radius", OVERBEND_AT(result.neck.board_radius), 100 * mm,
                                     2000 * mm, "Radius of the top across its width, or flat.");
  radius.kind = Kind::radius;
  board.length("beyond_last_fret", OVERBEND_AT(result.neck.board_end), 1 * mm, 60 * mm,
               "Length of board beyond the last fret.");
  board.length(
      "slot_depth", OVERBEND_AT(result.neck.slot_depth), 0, 8 * mm,
      "Depth of the fret slots below the top; 0 for a board without. Where the neck is "
      "bent back they open, and the board is softer along its grain than where they "
      "close on the frets. Unknown: 2.5 mm (0.1 in), and no more than 42 % of the board [E].",
      "unknown");
  board.quantity("slot_give", Dimension::fraction, OVERBEND_AT(result.neck.slot_give), 0, 3,
                 "How much they give, for what is computed; the trade's 10 to 25 % less board "
                 "stiffness is about 40 to 120 % of that [E]. Tangs that hold the slots shut: 0.",
                 "100 %");
  board.flag("tongue_glued", OVERBEND_AT(result.neck.tongue_glued),
             "The part of the board over the body is glued to the body.");
}

void declare_headstock(Declarations &lines)
{
  Table head(lines, "headstock");
  head.choice(
      "kind", {"flat", "tilted", "scarf"}, OVERBEND_AT(result.neck.headstock.kind),
      "Flat with a step, tilted in one piece with the shaft, or tilted with a scarf joint.");
  head.quantity("angle", Dimension::angle, OVERBEND_AT(result.neck.headstock.angle), 0, 25 * degree,
                "Tilt against the board; 0 for a flat one.");
  head.length("thickness", OVERBEND_AT(result.neck.headstock.thickness), 6 * mm, 25 * mm,
              "Thickness square to its face.");
  head.length("length", OVERBEND_AT(result.neck.headstock.length), 60 * mm, 350 * mm,
              "Length from the nut along its face.");
  head.length("width", OVERBEND_AT(result.neck.headstock.width), 30 * mm, 150 * mm,
              "Width where it is widest.");
  head.length("face_step", OVERBEND_AT(result.neck.headstock.face_step), 0, 15 * mm,
              "Flat only: drop of the face below the glue line of the board.", "0 mm")
      .only_with = "flat";
  head.length("scarf_start", OVERBEND_AT(result.neck.headstock.scarf_start), 0, 80 * mm,
              "Scarf only: from the nut to where the joint comes out of the back.", "0 mm")
      .only_with = "scarf";
  head.name("wood", OVERBEND_AT(result.neck.headstock.piece.wood),
            "Scarf only: wood of the headstock piece; \"as shaft\" for the same.", "as shaft")
      .only_with = "scarf";
  head.grain("grain", OVERBEND_AT(result.neck.headstock.piece.grain.ring_angle),
             "Scarf only: how the rings lie in its end grain.", "flat")
      .only_with = "scarf";
  head.quantity("run_out_across", Dimension::slope,
                OVERBEND_AT(result.neck.headstock.piece.grain.run_out_across), -0.35, 0.35,
                "Scarf only: slope of the grain seen from the front.", "0 %")
      .only_with = "scarf";
  head.quantity("run_out_depth", Dimension::slope,
                OVERBEND_AT(result.neck.headstock.piece.grain.run_out_depth), -0.35, 0.35,
                "Scarf only: slope of the grain seen from the side, against its face.", "0 %")
      .only_with = "scarf";
  head.quantity("swelling_along", Dimension::fraction, OVERBEND_AT(headstock_swelling),
                least_swelling, most_swelling,
                "Scarf only: swelling of this blank along the grain, as for the shaft; unknown: as "
                "the shaft.",
                "unknown")
      .only_with = "scarf";
  declare_other_end(head, "at_tip", "at its tip",
                    OVERBEND_AT(result.neck.headstock.piece.grain.ring_angle_at_end),
                    OVERBEND_AT(result.neck.headstock.piece.grain.run_out_across_at_end),
                    OVERBEND_AT(result.neck.headstock.piece.grain.run_out_depth_at_end));
}

void declare_heel(Declarations &lines)
{
  Table heel(lines, "heel");
  heel.choice("kind", {"heel", "bolt-on"}, OVERBEND_AT(result.neck.heel.kind),
              "A glued heel, or a neck end bolted into a pocket of the body.");
  heel.length("depth", OVERBEND_AT(result.neck.heel.depth), 10 * mm, 130 * mm,
              "Depth below the board's glue line at the body.");
  heel.length("length", OVERBEND_AT(result.neck.heel.length), 5 * mm, 120 * mm,
              "Length along the neck from where the shaft begins to swell to the body.");
  heel.length("pocket", OVERBEND_AT(result.neck.heel.pocket), 0, 150 * mm,
              "Bolt-on only: length of neck inside the pocket.", "0 mm")
      .only_with = "bolt-on";
}

void declare_rod(Declarations &lines)
{
  Table rod(lines, "rod");
  rod.choice("kind", {"none", "bonded bar", "single-action", "two-way"},
             OVERBEND_AT(result.neck.rod.kind),
             "None, a bar glued in for good, a compression rod, or a rod that works both ways.");
  rod.choice("state", {"slack", "set", "broken", "seized", "at its stop"},
             OVERBEND_AT(result.neck.rod.state),
             "As it is on the bench. Slacken a working rod before anything else. Seized: it turns "
             "neither way, and bows and twist are read with its pull in the neck. At its stop: it "
             "can be slackened and set again to `force`, no tighter; the target then is slack "
             "unless given.",
             "slack");
  rod.choice("bar", {"steel", "carbon", "aluminium"}, OVERBEND_AT(result.neck.rod.bar),
             "Bonded bar only: what it is made of.", "steel")
      .only_with = "bonded bar";
  rod.length("channel_width", OVERBEND_AT(result.neck.rod.channel_width), 0, 20 * mm,
             "Width of the channel in the shaft; of the bar itself if bonded.", "0 mm");
  rod.length("channel_depth", OVERBEND_AT(result.neck.rod.channel_depth), 0, 25 * mm,
             "From the board's glue line to the bottom of the channel.", "0 mm");
  rod.length("fillet_depth", OVERBEND_AT(result.neck.rod.fillet_depth), 0, 20 * mm,
             "Single-action only: thickness of the wooden fillet over the rod.", "0 mm")
      .only_with = "single-action";
  rod.length("diameter", OVERBEND_AT(result.neck.rod.diameter), 0, 10 * mm,
             "Diameter of the rod, or of each half of a two-way rod.", "0 mm");
  rod.quantity(
      "force", Dimension::force, OVERBEND_AT(result.neck.rod.force), 0, 5000,
      "Pull in the rod when it is set; at its stop, the most it gives; seized, its pull in "
      "the neck as found, to be given in the case itself, or unknown.",
      "0 N");
  rod.choice("bows", {"back", "forward"}, OVERBEND_AT(result.neck.rod.bows),
             "Two-way only: which way it bows the neck when set, back against the strings or "
             "forward with them.",
             "back")
      .only_with = "two-way";
}
} // namespace

void declare_neck(Declarations &lines)
{
  declare_sizes(lines);
  declare_shaft(lines);
  declare_board(lines);
  declare_headstock(lines);
  declare_heel(lines);
  declare_rod(lines);
}
} // namespace overbend::cases
