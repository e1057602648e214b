// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/check/check_case.h"

#include "cases/check/checking.h"
#include "cases/text/suggest.h"

#include <cmath>

namespace overbend::cases
{
namespace
{
// Least thicknesses of wood that a neck can have somewhere [E].
constexpr double least_shaft = 6e-3, least_edge = 0.8e-3, least_back = 1.5e-3, least_free = 60e-3;

void check_sizes(const Case &result)
{
  const NeckShape &neck = result.neck;
  if (neck.join_fret > neck.frets)
    refuse_any(result, {"neck.join_fret", "neck.frets"},
               "the body join at fret " + std::to_string(neck.join_fret) +
                   " lies beyond the last fret (" + std::to_string(neck.frets) + ")",
               "count the frets again");
  if (neck.width_at_12 < neck.nut_width)
    refuse_any(result, {"neck.width_at_12", "neck.nut_width"},
               "the board is narrower at fret 12 than at the nut (" +
                   both_lengths(neck.width_at_12) + " against " + both_lengths(neck.nut_width) +
                   ")",
               "check that the two widths are not swapped");
  if (neck.headstock.width < neck.nut_width)
    refuse_any(result, {"headstock.width", "neck.nut_width"},
               "the headstock (" + both_lengths(neck.headstock.width) +
                   " where it is widest) is narrower than the nut (" +
                   both_lengths(neck.nut_width) + ")",
               "measure both again");
  for (const auto &[name, depth] : {std::pair("neck.depth_at_1", neck.depth_at_1),
                                    std::pair("neck.depth_at_12", neck.depth_at_12)})
    if (depth - neck.board_thickness < least_shaft)
      refuse_any(result, {name, "board.thickness"},
                 "a depth of " + both_lengths(depth) + " leaves less than " +
                     both_lengths(least_shaft) + " of shaft under a board of " +
                     both_lengths(neck.board_thickness),
                 "measure the depth over shaft and board together");
  const double half = 0.5 * width_at(neck, board_end(neck)), radius = neck.board_radius;
  const double fall = std::isinf(radius) ? 0 : radius - std::sqrt(radius * radius - half * half);
  if (!(neck.board_thickness - fall >= least_edge))
    refuse_any(result, {"board.radius", "board.thickness"},
               "a board of " + both_lengths(neck.board_thickness) +
                   " with this radius has less than " + both_lengths(least_edge) +
                   " left at its edges",
               "check radius and thickness; the thickness is that on the centre line");
}

void check_heel(const Case &result)
{
  const NeckShape &neck = result.neck;
  if (neck.heel.length > join_position(neck) - least_free)
    refuse_any(result, {"heel.length", "neck.join_fret", "neck.scale_length"},
               "the heel is as long as the neck",
               "give the length of the swelling between shaft and body");
  if (neck.heel.depth < shaft_depth(neck, join_position(neck) - neck.heel.length))
    refuse_any(result, {"heel.depth", "neck.depth_at_12"},
               "the heel (" + both_lengths(neck.heel.depth) +
                   ") is shallower than the shaft before it",
               "measure from the board's glue line to the bottom of the heel");
  const double tongue = board_end(neck) - join_position(neck);
  if (neck.heel.kind == HeelKind::heel && neck.heel.pocket > 0)
    refuse(result, "heel.pocket", "a glued heel has no pocket",
           "leave the pocket out, or write kind = \"bolt-on\"");
  if (neck.heel.kind == HeelKind::bolt_on && !(neck.heel.pocket > 0))
    refuse_any(result, {"heel.pocket", "heel.kind"},
               "a bolt-on neck needs the length of its pocket",
               "write pocket = \"75 mm\" or what you measure");
  if (neck.heel.kind == HeelKind::bolt_on && neck.heel.pocket > tongue)
    refuse_any(result, {"heel.pocket", "neck.join_fret", "neck.frets", "neck.scale_length"},
               "the pocket (" + both_lengths(neck.heel.pocket) +
                   ") is longer than the board beyond fret " + std::to_string(neck.join_fret) +
                   " (" + both_lengths(tongue) + ")",
               "check the pocket, the join fret and the number of frets");
}

// Without a scarf joint headstock and shaft are one piece of wood.
void check_one_piece(const Case &result)
{
  const Piece &head = result.neck.headstock.piece, &shaft = result.neck.shaft;
  if (head.wood != shaft.wood || head.grain.ring_angle != shaft.grain.ring_angle ||
      head.grain.run_out_across != shaft.grain.run_out_across ||
      head.grain.run_out_depth != shaft.grain.run_out_depth)
    refuse(result, head.wood != shaft.wood ? "headstock.wood" : "headstock.grain",
           "the headstock is one piece with the shaft, but its wood or grain is another",
           "leave wood and grain of the headstock out, or write kind = \"scarf\"");
  if (head.swelling_along != shaft.swelling_along)
    refuse(result, "headstock.swelling_along",
           "the headstock is one piece with the shaft, but it swells otherwise",
           "leave it out, or write kind = \"scarf\"");
  const Grain &grain = head.grain;
  if (grain.ring_angle_at_end || grain.run_out_across_at_end || grain.run_out_depth_at_end)
    refuse_any(result,
               {"headstock.grain_at_tip", "headstock.run_out_across_at_tip",
                "headstock.run_out_depth_at_tip"},
               "the headstock is one piece with the shaft, but its grain changes towards the tip",
               "leave the grain at the tip out, or write kind = \"scarf\"");
}

// Frets in the shaft itself: then board and shaft are the same wood.
void check_board_of_one_piece(const Case &result)
{
  const Piece &board = result.neck.board, &shaft = result.neck.shaft;
  if (result.board_glue.kind && plain_word(*result.board_glue.kind) == "one piece" &&
      (board.wood != shaft.wood || board.grain.ring_angle != shaft.grain.ring_angle))
    refuse(result, board.wood != shaft.wood ? "board.wood" : "board.grain",
           "board and shaft are said to be one piece, but wood or grain of the board is another",
           "write wood and grain of the board as those of the shaft, or name the glue under it");
  if (result.scarf_glue.kind && plain_word(*result.scarf_glue.kind) == "one piece")
    refuse(result, "glue.scarf", "a scarf joint is glued",
           "name its glue, or write kind = \"tilted\" in [headstock]");
}

void check_moisture(const Case &result)
{
  const Moisture &known = result.moisture;
  const bool months = known.climate_to > 0, table = !known.past.file.empty();
  if (known.content && (known.humidity || months || table))
    refuse_any(
        result,
        {"moisture.content", "moisture.humidity", "moisture.climate_to", "moisture.climate_file"},
        "the moisture is measured, and also given by the air it lived in",
        "leave one of them out; a good measurement is the better");
  if (int(known.humidity.has_value()) + int(months) + int(table) > 1)
    refuse_any(result, {"moisture.climate_to", "moisture.climate_file", "moisture.humidity"},
               "the air it lived in is given twice",
               "keep one of `humidity`, `climate_to` and `climate_file`");
  if (known.temperature && (known.content || months || table))
    refuse(result, "moisture.temperature",
           "`temperature` is that of one air, but the moisture is given by something else",
           "leave it out, or tell the air by `humidity` and `temperature`");
}

void check_headstock(const Case &result)
{
  const NeckShape &neck = result.neck;
  const Headstock &head = neck.headstock;
  const bool flat = head.kind == HeadstockKind::flat, scarf = head.kind == HeadstockKind::scarf;
  if (flat && head.angle != 0)
    refuse(result, "headstock.angle", "a flat headstock has no angle",
           "leave the angle out, or write kind = \"tilted\"");
  constexpr double least_angle = 3 * 3.14159265358979323846 / 180;
  if (!flat && head.angle < least_angle)
    refuse_any(result, {"headstock.angle", "headstock.kind"},
               "a tilted headstock needs its angle, at least 3 deg",
               "write angle = \"14 deg\" or what you measure, or kind = \"flat\"");
  if (!flat && head.face_step > 0)
    refuse(result, "headstock.face_step", "only a flat headstock has a step",
           "leave the step out, or write kind = \"flat\"");
  if (!scarf && head.scarf_start > 0)
    refuse(result, "headstock.scarf_start", "this headstock has no scarf joint",
           "leave it out, or write kind = \"scarf\"");
  if (!scarf && result.scarf_glue.kind)
    refuse(result, "glue.scarf", "a glue is given for the scarf, but there is no scarf joint",
           "leave it out, or write kind = \"scarf\" under [headstock]");
  if (!scarf) {
    check_one_piece(result);
    return;
  }
  const double end = head.scarf_start + shaft_depth(neck, 0) / std::tan(head.angle);
  if (end > join_position(neck) - neck.heel.length - least_free)
    refuse_any(result, {"headstock.scarf_start", "headstock.angle"},
               "the scarf joint would reach " + both_lengths(end) + " from the nut, off the shaft",
               "check the angle of the headstock and where the joint comes out of the back");
}

void check_tuners(const Case &result)
{
  const Tuners &tuners = result.tuners;
  const Headstock &head = result.neck.headstock;
  if (tuners.first_post >= tuners.last_post)
    refuse_any(result, {"tuners.first_post", "tuners.last_post"},
               "the first post is not nearer to the nut than the last",
               "measure both from the nut");
  if (tuners.last_post > head.length)
    refuse_any(result, {"tuners.last_post", "headstock.length"},
               "the last post (" + both_lengths(tuners.last_post) + ") is off the headstock (" +
                   both_lengths(head.length) + ")",
               "measure both from the nut along the headstock");
  const bool pairs = tuners.layout == TunerLayout::both_sides;
  if (tuners.across > (pairs ? head.width : head.width / 2))
    refuse_any(result, {"tuners.across", "tuners.layout", "headstock.width"},
               "the posts are beside the headstock",
               pairs ? "give the distance between the two rows"
                     : "give the distance of the line from the centre line");
  if (pairs && !(tuners.across > 0))
    refuse_any(result, {"tuners.across", "tuners.layout"},
               "posts on both sides need the distance between the rows",
               "write across = \"65 mm\" or what you measure");
}

void check_found(const Case &result)
{
  const Found &found = result.found;
  const int frets = result.neck.frets;
  const auto exists = [&](const char *name, int fret) {
    if (fret > frets)
      refuse(result, name,
             "there is no fret " + std::to_string(fret) + " on a board with " +
                 std::to_string(frets) + " frets",
             "name a fret that exists");
  };
  exists("found.rest_fret_near_nut", found.rest_fret_a);
  exists("found.rest_fret_near_body", found.rest_fret_b);
  exists("found.bow_fret", found.bow_fret);
  if (found.rest_fret_a + 2 > found.rest_fret_b)
    refuse_any(result, {"found.rest_fret_near_nut", "found.rest_fret_near_body"},
               "the rest frets leave no fret between them",
               "rest the straightedge on fret 1 and on the body-join fret");
  if (found.bow_fret <= found.rest_fret_a || found.bow_fret >= found.rest_fret_b)
    refuse_any(result, {"found.bow_fret", "found.rest_fret_near_nut", "found.rest_fret_near_body"},
               "fret " + std::to_string(found.bow_fret) + " is not between the rest frets " +
                   std::to_string(found.rest_fret_a) + " and " + std::to_string(found.rest_fret_b),
               "give the fret at which the gap was read");
  constexpr double straight = 0.3e-3;
  if (found.angle_only && std::abs(found.bow_centre) > straight)
    refuse(result, "found.angle_only",
           "the board is said to be straight, yet its bow is " + both_lengths(found.bow_centre),
           "write angle_only = false, or read the bow again");
}

void check_fret_heights(const Case &result)
{
  const int frets = result.neck.frets;
  const FretHeights &heights = result.readings.fret_heights;
  if (!heights.empty() && heights.rbegin()->first > frets)
    refuse(result, "readings.fret_heights",
           "there is no fret " + std::to_string(heights.rbegin()->first) + " on a board with " +
               std::to_string(frets) + " frets",
           "name frets from 1 to " + std::to_string(frets));
}

void check_over_bridge(const Case &result)
{
  const Readings &r = result.readings;
  if (r.over_bridge_from.has_value() != r.over_bridge_to.has_value())
    refuse(result, r.over_bridge_from ? "readings.over_bridge_from" : "readings.over_bridge_to",
           "one end of the range over the bridge is known and the other is not",
           "give both, or leave both unknown");
  if (r.over_bridge_from && *r.over_bridge_from >= *r.over_bridge_to)
    refuse_any(result, {"readings.over_bridge_from", "readings.over_bridge_to"},
               "the range over the bridge ends before it begins (" +
                   both_lengths(*r.over_bridge_from) + " to " + both_lengths(*r.over_bridge_to) +
                   ")",
               "`over_bridge_from` is the least, `over_bridge_to` the most");
  if (r.over_bridge && !r.over_bridge_from)
    refuse(result, "readings.over_bridge",
           "nothing tells what an edge along the frets should clear on this instrument's bridge",
           "leave it out where the bridge can be raised and lowered; otherwise tell "
           "over_bridge_from and over_bridge_to");
}

void check_bench(const Case &result)
{
  const NeckShape &neck = result.neck;
  const Bench &bench = result.bench;
  const double first = fret_position(neck.scale_length, 1), join = join_position(neck);
  if (bench.cradle_x < first || bench.cradle_x > join)
    refuse(result, "bench.cradle",
           "the cradle at " + both_lengths(bench.cradle_x) + " is off the shaft",
           "put it between fret 1 (" + both_lengths(first) + ") and the body join (" +
               both_lengths(join) + ")");
  const double half = bench.cradle_width / 2;
  if (bench.cradle_x < half || bench.cradle_x + half > join)
    refuse_any(result, {"bench.cradle_width", "bench.cradle"},
               "a pad of " + both_lengths(bench.cradle_width) + " at " +
                   both_lengths(bench.cradle_x) + " hangs over the end of the shaft",
               "move the cradle or take a shorter pad");
}
} // namespace

void check_case(const Case &result)
{
  check_sizes(result);
  check_heel(result);
  check_board_of_one_piece(result);
  check_headstock(result);
  check_laminations(result);
  check_rod(result);
  check_tuners(result);
  check_found(result);
  check_fret_heights(result);
  check_over_bridge(result);
  check_bench(result);
  check_device(result);
  check_heat(result);
  check_moisture(result);
  check_told(result);
}
} // namespace overbend::cases
