// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <map>
#include <optional>

// What the bench read, before any work and after a first pass, how it reads, and where the warp
// came from. Units and conventions as in cases/case/case.h.
namespace overbend::cases
{
// What the bench found before any work, strings off and rod slack unless said otherwise.
struct Found
{
  double bow_bass = 0, bow_centre = 0, bow_treble = 0; // forward positive, at bow_fret
  std::optional<double> twist;                         // treble corner of the nut raised positive
  int rest_fret_a = 1, rest_fret_b = 0; // rest frets of the straightedge; b = 0: body-join fret
  int bow_fret = 0;                 // fret at which the bows were read; 0: the deepest of the model
  std::optional<double> strung_bow; // centre bow strung at pitch, rod as found
  // Centre bows with the one change each: strung at pitch with the rod slack, and strings off with
  // the rod still loaded as found.
  std::optional<double> strung_bow_rod_slack, bow_rod_loaded;
  bool rod_loaded = false; // the rod was loaded during the readings
  bool open_crack = false; // crack in shaft, headstock or heel
  bool angle_only = false; // string height or neck angle is wrong, the board is straight
};

// What was done in a first pass and read after it, at the end of its rest: from it a plan of the
// second finds how fast this glue line is. Readings as in Found.
struct FirstPass
{
  std::optional<double> overbend; // bow that the clamp was set to when hot, on the centre line
  double overbend_twist = 0;
  // What it was let up to at a second hot reading, halfway through the hold; empty: left as it was.
  std::optional<double> let_up_to, let_up_twist;
  std::optional<double> bow; // released and rested, centre
  std::optional<double> twist;
  // As it was done, where that was not as the set-up at hand.
  std::optional<double> bar_temperature, hold;

  bool done() const { return bow.has_value(); }
};

// What straightedge, sticks and a string held down are read on: the tops of the frets, or the wood
// between them (a notched edge).
enum class EdgeOn { frets, wood };

// Top of one fret against a level set of frets, m, positive towards the strings: at the bass and at
// the treble reading line, half way between them in the middle.
struct FretHeight
{
  double bass = 0, treble = 0;
};
// By fret number; a fret that is not named is level.
using FretHeights = std::map<int, FretHeight>;

// How the bench reads, for what the case gives (found, target, pulls) and for what the plan tells.
struct Readings
{
  EdgeOn edge_on = EdgeOn::frets;
  FretHeights fret_heights;
  // A straightedge along the frets carried on to the bridge: its height over the bridge's top,
  // strings off, and the range of it with a right neck angle. No range: the bridge can be raised
  // and lowered, or the range is not known.
  std::optional<double> over_bridge, over_bridge_from, over_bridge_to;
};

enum class Cause { hot_strung, years_of_pull, unknown };

// Where an instrument was in the hot store. In its closed case the wood holds the humidity of the
// little air around it and keeps its water; in the open it meets the hot air, which is dry.
enum class KeptIn { closed_case, open_air };

struct Warp
{
  Cause cause = Cause::unknown;
  double temperature = 0;               // hot_strung: hottest air
  double hot_time = 0;                  // hot_strung: time at that temperature
  KeptIn kept_in = KeptIn::closed_case; // hot_strung
  double pull_time = 0;                 // years_of_pull: time strung
  double slip_share = 0.5;              // unknown cause: share of the bow taken as slip
  double rest_time = 0;                 // since the strings came off
};
} // namespace overbend::cases
