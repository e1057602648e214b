// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

// Readings as the bench makes them. These functions see sampled lines, never finite elements.
//
// Signs: a bow is positive when it is forward (the middle of the line lower than its rests, the
// strings further from the frets). Twist is positive when the treble corner of the nut end is
// raised towards the strings. Lengths in m, angles in rad. Every reading names its rest frets,
// because fret 1 to the body join and fret 1 to the last fret differ by 20 to 40 %.
//
// Errors: a fret that is not on the line, rests in the wrong order or a number that is not finite
// throw std::invalid_argument with a sentence. The case file is checked before; such an error is
// a fault of the program.
namespace overbend::solver
{
// A line along the board as an edge sees it: position and height at each fret. Index = fret number,
// 0 = nut end of the board. x grows strictly; z is positive towards the strings.
struct SampledLine
{
  std::vector<double> x;
  std::vector<double> z;
};

// The line over the tops of the frets: wood plus the height of each fret (index = fret number;
// entry 0 is what stands at the nut end, 0 for bare wood). A plain straightedge reads this line, a
// notched one reads the wood.
SampledLine on_frets(const SampledLine &wood, const std::vector<double> &fret_height);

// ---- Signed bow over two named rests -----------------------------------------------------------

struct BowReading
{
  int rest_a = 0, rest_b = 0;
  int fret = 0;
  double bow = 0;
};

// Chord over the rests minus the line at `fret`: linear in the heights, which a solver needs.
// The fret may lie outside the rests; the chord is then extended.
BowReading bow_at_fret(const SampledLine &line, int fret, int rest_a, int rest_b);

// Rise of the line at `fret` over the extended chord (positive: towards the strings). Tells a
// tongue that ramps up (positive) from one that falls away (negative).
double rise_at_fret(const SampledLine &line, int fret, int rest_a, int rest_b);

enum class Direction { forward, back, either };

struct DeepestReading
{
  int rest_a = 0, rest_b = 0;
  int fret = 0;         // where the bow is largest, on the frets
  double bow = 0;       // there
  double refined_x = 0; // vertex of the parabola through this fret and its two neighbours
  double refined_bow = 0;
};

// The fret of the largest bow between the rests: the largest forward one, the largest back one, or
// the larger of both. With no bow in the asked direction the bow is 0 at rest_a.
// The first of equal frets is taken.
DeepestReading deepest(const SampledLine &line, int rest_a, int rest_b,
                       Direction direction = Direction::either);

// ---- Edges that rest on high points ------------------------------------------------------------

struct EdgeReading
{
  int rest_a = 0, rest_b = 0;        // frets it rests on
  int first_fret = 0, last_fret = 0; // frets under the edge
  std::vector<double> gap; // under the edge, entry 0 belongs to first_fret; never negative
  int deepest_fret = 0;
  double deepest_gap = 0;
  double hump = 0; // height of the high points in between over the line through the end frets
  double at(int fret) const { return gap.at(static_cast<std::size_t>(fret - first_fret)); }
};

// A straightedge laid with one end on `start_fret`, reaching `length` towards the body, under its
// own weight: it rests on the two high points (of the upper convex hull of the frets under it) on
// both sides of its middle. Shows no gap at a hump; a back-bow is read with rocking_gaps.
// Also throws if its middle lies beyond the last fret, where it would tip off.
EdgeReading straightedge(const SampledLine &line, int start_fret, double length);

// An edge that rests on all high points of the frets first..last at once, as a taut string does
// that is held down at both: the gaps to the upper convex hull. rest_a and rest_b are the held
// frets; hump greater than 0 tells that the string lies on high points in between.
EdgeReading string_held_down(const SampledLine &line, int first_fret, int last_fret);

// Height at x, beyond the last fret, of an edge that begins on `start_fret` and is carried on to x:
// it lies on the two high points on both sides of its middle, as by its own weight; where its
// middle is beyond the last fret it is held down on the two high points farthest from the nut. m,
// in the line's own heights. std::invalid_argument also for an x that the frets reach.
double edge_carried_to(const SampledLine &line, int start_fret, double x);

struct RockingReading
{
  int first_fret = 0, last_fret = 0;
  int hump_fret = 0;       // the point the edge is balanced on
  double end_gap = 0;      // the two equal gaps at the first and at the last fret; 0: no hump
  std::vector<double> gap; // under the balanced edge, entry 0 belongs to first_fret
};

// A straightedge from the first to the last fret, balanced on the hump of a back-bow so that both
// ends show the same gap. The edge is then parallel to the chord over the two frets, so that
// end gap = largest height of the line over this chord.
RockingReading rocking_gaps(const SampledLine &line, int first_fret, int last_fret);

// ---- Winding sticks ----------------------------------------------------------------------------

// Heights of the bass and treble ends of the line across the board at one fret, and how far apart
// they are across (y, m).
struct StickStation
{
  int fret = 0;
  double bass_height = 0, treble_height = 0;
  double distance = 0;
};

struct TwistReading
{
  int nut_side_fret = 0, body_side_fret = 0;
  double angle = 0;        // rad
  double over_sticks = 0;  // difference at the tips of the sticks, m
  double stick_length = 0; // m
  double across_nut = 0;   // the same angle across the nut, m
};

// Angle of the stick at the nut side against the one at the body side.
// 300 mm sticks show 5.2 mm a degree (common practice [E]; 300 mm x sin 1 deg [C]).
TwistReading winding_sticks(const StickStation &nut_side, const StickStation &body_side,
                            double nut_width, double stick_length = 0.3);

// ---- Kink and joint hump -----------------------------------------------------------------------

struct KinkReading
{
  int first_fret = 0, middle_fret = 0, last_fret = 0;
  BowReading whole;     // at middle_fret over first..last
  BowReading nut_half;  // at the fret nearest to the middle of first..middle
  BowReading body_half; // the same over middle..last
  double kink = 0;      // part of the whole bow that the halves do not explain, m
  double angle = 0;     // the kink as an angle at middle_fret, rad; forward positive
};

// A smooth bow shows in the halves too; a kink (or the hump at the body join, with the join as the
// middle fret) does not. With the curvature of each half from its own bow,
// k = 2 d / ((m - a)(b - m)), the bow of a line without a kink would be
//   (m - a)(b - m) / (2 (b - a)) * (k1 (m - a) + k2 (b - m)),
// exact for a constant curvature in each half [C]. The rest is the kink: positive for a valley,
// negative for a hump; angle = kink (b - a) / ((m - a)(b - m)).
KinkReading kink(const SampledLine &line, int first_fret, int middle_fret, int last_fret);
} // namespace overbend::solver
