// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/declare/declare.h"

// One strip of a shaft that is glued up from strips side by side.
namespace overbend::cases
{
void declare_lamination(Declarations &lines)
{
  Table strip(lines, "lamination");
  strip
      .length("width", OVERBEND_AT(lamination.width), 0.4 * mm, 150 * mm,
              "Width of the strip across the neck. All strips together lie with their middle on "
              "the centre line; the outer ones may be wider than the neck, whose taper cuts "
              "through them.")
      .default_words = "**to be given**";
  strip.name("wood", OVERBEND_AT(lamination.wood),
             "Wood of the strip, from the list of woods; \"as shaft\" for the same.", "as shaft");
  strip.grain("grain", OVERBEND_AT(lamination.ring_angle),
              "How its rings lie in the end grain: flat, rift, quarter, or their angle to the "
              "board; unknown: as the shaft.",
              "unknown");
  strip.quantity("run_out_across", Dimension::slope, OVERBEND_AT(lamination.run_out_across), -0.35,
                 0.35,
                 "Slope of its grain seen from the front, towards the treble side positive; "
                 "unknown: as the shaft.",
                 "unknown");
  strip.quantity("run_out_depth", Dimension::slope, OVERBEND_AT(lamination.run_out_depth), -0.35,
                 0.35,
                 "Slope of its grain seen from the side, rising towards the body positive; "
                 "unknown: as the shaft.",
                 "unknown");
  strip.quantity("swelling_along", Dimension::fraction, OVERBEND_AT(lamination.swelling_along), 0.1,
                 10,
                 "Swelling of this strip along the grain, for that of its wood in the tables; "
                 "unknown: as the shaft.",
                 "unknown");
  declare_other_end(strip, "at_body", "at the body join", OVERBEND_AT(lamination.ring_angle_at_end),
                    OVERBEND_AT(lamination.run_out_across_at_end),
                    OVERBEND_AT(lamination.run_out_depth_at_end));
}
} // namespace overbend::cases
