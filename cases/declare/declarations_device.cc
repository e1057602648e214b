// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/declare/declare.h"

// What bends the neck.
namespace overbend::cases
{
namespace
{
void declare_device(Table &bench)
{
  bench
      .choice(
          "device", {"by the layout", "posts", "strap", "headstock bar", "strap and bar", "caul"},
          OVERBEND_AT(device),
          "What bends the neck: cords from posts; a strap over the shaft behind the nut (bow "
          "alone); a bar clamped across the headstock with a cord at each end (bow and twist); "
          "the strap for the bow with the bar for the twist, its cords pulling one down and one "
          "up alike; a caul that presses the board between two supports (bows forward).",
          "by the layout")
      .default_words = "posts if they stand on both sides, else headstock bar";
  bench
      .posts("posts", OVERBEND_AT(result.bench.posts),
             "Posts that the cords go to, counted from the nut, one to three a side: \"bass 2, "
             "treble 2\". The cords of one side are drawn alike. Posts in line pull on one side "
             "and set no twist.",
             "middle")
      .default_words = "the middle one of each side";
  bench.flag(
      "turned_over", OVERBEND_AT(result.bench.turned_over),
      "The instrument lies face down, for a back-bow: cradle and supports bear on the board, "
      "the headstock is pulled towards the strings, a caul presses the back. The heating bar "
      "cannot lie where the clamp bears on the board.",
      "false");
}

void declare_strap_and_bar(Table &bench)
{
  bench.length("bar_arm", OVERBEND_AT(result.bench.bar_arm), 30 * mm, 0.5,
               "Headstock bar: from the centre line to the cord, on each side.", "150 mm");
  bench.length("bar_place", OVERBEND_AT(result.bench.bar_place), 20 * mm, 0.3,
               "Headstock bar: from the nut to its middle, along the headstock.", "60 mm");
  bench.quantity("bar_moment", Dimension::torque, OVERBEND_AT(result.bench.bar_moment), 1, 1000,
                 "Headstock bar: bending that it and its clamp bear. Hard wood 40 mm (1 5/8 in) "
                 "wide and 20 mm "
                 "(3/4 in) thick about 80 at a third of its strength [E].",
                 "80 N m");
  bench.position("strap", OVERBEND_AT(result.bench.strap_x),
                 "Middle of the strap, negative on the headstock's side of the nut; over the "
                 "heating bar's end if that lies there.",
                 "-20 mm");
  bench.length("strap_width", OVERBEND_AT(result.bench.strap_width), 5 * mm, 80 * mm,
               "Width of the strap, along the neck.", "25 mm");
  bench.quantity(
      "strap_stiffness", Dimension::stiffness, OVERBEND_AT(result.bench.strap_stiffness), 1e3, 1e6,
      "Of the whole strap, both its ends to the bench together: as two cords [E].", "60 N/mm");
  bench.quantity("strap_limit", Dimension::force, OVERBEND_AT(result.bench.strap_limit), 5, 2000,
                 "Most pull on the whole strap: two cords' worth [E].", "600 N");
}

void declare_caul(Table &bench)
{
  bench.position("caul", OVERBEND_AT(result.bench.caul_x), "Middle of the caul.", "fret 5");
  bench.length("caul_width", OVERBEND_AT(result.bench.caul_width), 10 * mm, 150 * mm,
               "Length of neck that the caul presses on.", "50 mm");
  bench.position("caul_support_nut", OVERBEND_AT(result.bench.support_nut),
                 "Middle of the caul's support towards the nut; both supports are padded and as "
                 "long as the cradle.",
                 "fret 1");
  bench.position("caul_support_body", OVERBEND_AT(result.bench.support_body),
                 "Middle of the caul's support towards the body.", "fret 9");
  bench.quantity("caul_stiffness", Dimension::stiffness, OVERBEND_AT(result.bench.caul_stiffness),
                 1e3, 1e7, "Of the caul's clamp with its pad [E].", "200 N/mm");
  bench.quantity("caul_limit", Dimension::force, OVERBEND_AT(result.bench.caul_limit), 5, 5000,
                 "Most force of the caul's clamp [E].", "600 N");
}

} // namespace

void declare_bench_itself(Declarations &lines)
{
  Table bench(lines, "bench");
  declare_device(bench);
  bench.choice("body", {"rigid", "pads"}, OVERBEND_AT(result.bench.hold),
               "Body held hard, or on padding so that it can tip a little.", "pads");
  bench.quantity("pad_stiffness", Dimension::turning_stiffness,
                 OVERBEND_AT(result.bench.pad_stiffness), 100, 1e6,
                 "Resistance of the body on its padding against tipping [E].", "3000 N m/rad");
  bench.length("pad_distance", OVERBEND_AT(result.bench.pad_distance), 0, 0.5,
               "From the body join to the middle of the padding.", "150 mm");
  bench.position("cradle", OVERBEND_AT(result.bench.cradle_x),
                 "Middle of the cradle under the back: where the gap is deepest or one fret "
                 "towards the nut.",
                 "fret 6");
  bench.length("cradle_width", OVERBEND_AT(result.bench.cradle_width), 5 * mm, 150 * mm,
               "Length of neck that rests on the cradle pad; broad is kind.", "50 mm");
  bench.quantity("cradle_pad", Dimension::bedding, OVERBEND_AT(result.bench.cradle_pad), 1e7, 1e12,
                 "Stiffness of the pad for its area; 5 mm (0.2 in) of cork about 2 [E].",
                 "2 N/mm3");
  bench.quantity(
      "cord_stiffness", Dimension::stiffness, OVERBEND_AT(result.bench.cord_stiffness), 1e3, 1e6,
      "Of one cord of 150 mm (6 in), knots included: nylon braid 10 to 15 N/mm (57 to 86 "
      "lbf/in), polyester braid 25 to 35 N/mm (143 to 200 lbf/in), plain steel string "
      "150 to 270 N/mm (857 to 1542 lbf/in) [E].",
      "30 N/mm");
  bench.length("cord_diameter", OVERBEND_AT(result.bench.cord_diameter), 0.1 * mm, 6 * mm,
               "Diameter of the cord on the post.", "1.5 mm");
  bench.quantity(
      "cord_limit", Dimension::force, OVERBEND_AT(result.bench.cord_limit), 5, 1000,
      "Most pull on one cord, knots included: polyester braid of 1.5 mm (1/16 in) breaks "
      "beyond 500 N (51 kgf, 112 lbf) [E]. What a post bears is a limit of its own.",
      "300 N");
  bench.quantity(
      "nut_stiffness", Dimension::stiffness, OVERBEND_AT(result.bench.nut_stiffness), 0, 1e9,
      "Stop that the nut gives to the sliding end of the board; 0 if it is out [E].", "20000 N/mm");
  bench.flag("stop_block", OVERBEND_AT(result.bench.stop_block),
             "A rigid block below the middle of the headstock stops it when the cords pull on. Its "
             "height then decides the bow; it is set cold, and again when the line is soft. The "
             "twist is left to the cords.",
             "false");
  declare_strap_and_bar(bench);
  declare_caul(bench);
}
} // namespace overbend::cases
