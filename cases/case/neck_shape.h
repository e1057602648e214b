// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <limits>
#include <optional>
#include <string>
#include <vector>

// The neck itself: its pieces with wood and grain, headstock, heel and rod. A part of the checked
// case, cases/case/case.h, whose conventions hold here.
namespace overbend::cases
{
// The side on which something acts. Sides are never called left or right.
enum class Side { bass, treble };

// Direction of the wood grain in one piece: at its nut end, and at its other end. In between it
// changes in a straight line along x; an empty optional: as at the nut end. The other end is the
// body join for the shaft, the end of the board for the board, the tip for a scarfed headstock.
struct Grain
{
  // Angle from the fingerboard plane to the annual rings in the cross-section:
  // 0 = flat-sawn (R along z, T along y), pi/2 = quarter-sawn (R along y).
  double ring_angle = 0;
  // Slope of the grain against the length, in the x-y plane and in the x-z plane.
  double run_out_across = 0;
  double run_out_depth = 0;
  std::optional<double> ring_angle_at_end{}, run_out_across_at_end{}, run_out_depth_at_end{};
};

// Swelling along the grain differs from place to place in one blank: a random factor about 1,
// lognormal, with a Gaussian correlation along the grain and across it.
struct GrainScatter
{
  double variation = 0; // standard deviation over mean of the factor; 0: the same everywhere
  double along = 0;     // correlation length along the grain, m
  double across = 0;    // and across it, m
  int seed = 1;         // another seed is another blank
};

// A piece of wood: a name from the table of woods and how its grain runs.
struct Piece
{
  std::string wood;
  Grain grain;
  double swelling_along = 1; // of this blank along the grain, for that of the wood in the table
};

// One strip of a shaft glued up from strips side by side, parallel to the centre line.
struct Lamination
{
  double width = 0; // m
  Piece piece;
};

enum class HeadstockKind { flat, tilted, scarf };

struct Headstock
{
  HeadstockKind kind = HeadstockKind::flat;
  double angle = 0;       // tilt against the fingerboard plane, 0 for flat
  double thickness = 0;   // square to its face
  double length = 0;      // from the nut, along its face
  double width = 0;       // full width where widest
  double face_step = 0;   // flat only: drop of the face below the glue plane
  double scarf_start = 0; // scarf only: from the nut to where the joint meets the back, >= 0
  Piece piece;            // used by the scarf; the other kinds are one with the shaft
  bool laminated = false; // the strips of the shaft run on into it
};

enum class HeelKind { heel, bolt_on };

struct Heel
{
  HeelKind kind = HeelKind::heel;
  double depth = 0;  // full depth below the glue plane at the body
  double length = 0; // along the neck, from the end of the shaft to the body join
  double pocket = 0; // bolt-on only: length of neck inside the body pocket
};

enum class RodKind { none, bonded_bar, single_action, two_way };
// at_its_stop: as found only; it can be slackened and set again to what it gives, no tighter.
enum class RodState { slack, set, broken, seized, at_its_stop };
// Which way a two-way rod bows the neck: back, against the strings, or forward, with them.
enum class RodBows { back, forward };
enum class BarMaterial { steel, carbon, aluminium };

struct Rod
{
  RodKind kind = RodKind::none;
  RodState state = RodState::slack;     // as found on the bench
  BarMaterial bar = BarMaterial::steel; // bonded bar only
  double channel_width = 0;             // width of the channel (equal to the bar for a bonded bar)
  double channel_depth = 0;             // from the glue plane to the bottom of the channel
  double fillet_depth = 0; // single-action: wood fillet over the rod, from the glue plane
  double diameter = 0;     // of the steel rod (single-action), of each member (two-way)
  // Pull when set or as it seized, N: tension (single-action), force of a member (two-way). Empty:
  // unknown, of a seized rod alone.
  std::optional<double> force = 0.;
  RodBows bows = RodBows::back; // two-way only
};

// What a rod in this state does while it is left as it is: at its stop it pulls like one set.
inline RodState acting(RodState state)
{
  return state == RodState::at_its_stop ? RodState::set : state;
}

struct NeckShape
{
  double scale_length = 0;
  int frets = 0;     // number of frets on the board
  int join_fret = 0; // fret over the body join
  double nut_width = 0;
  double width_at_12 = 0;
  double depth_at_1 = 0; // shaft and board together
  double depth_at_12 = 0;
  // Back of the section: |y/(w/2)|^n + |z/d|^n = 1 below the glue plane; 2 = ellipse,
  // larger = squarer shoulders.
  double back_exponent = 2.2;
  double board_thickness = 0; // along the centre line
  double board_radius = std::numeric_limits<double>::infinity();
  double board_end = 0;     // overhang of the board beyond the last fret
  bool tongue_glued = true; // board beyond the body join glued to the top of the body
  // Fret slots, from the board's top, m; empty: not measured. They soften the board where it is
  // pulled along its length (solver/model/fret_slots.h); give: for what is computed of that.
  std::optional<double> slot_depth{};
  double slot_give = 1;
  Piece shaft, board;
  // From bass to treble, their middle on the centre line, the outer ones as far as the wood goes;
  // empty: the shaft is one piece. See cases/case/strips.h.
  std::vector<Lamination> laminations{};
  bool board_laminated = false; // frets in the shaft itself, and that is of strips
  Headstock headstock;
  Heel heel;
  Rod rod;
};
} // namespace overbend::cases
