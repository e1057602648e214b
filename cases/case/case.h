// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cases/case/neck_shape.h"

#include <array>
#include <map>
#include <optional>
#include <string>
#include <vector>

// The checked case: everything a case file says, in SI units (m, s, Pa, N, K), ready to use.
//
// Nothing downstream reads the file again. A member that has no value in the file holds the value
// of its preset or its declared default. std::optional means "the repairer does not know".
// Absolute temperatures are in K. Angles are in radians.
namespace overbend::cases
{
// Glue line: kind is a name from the table of glues. Empty optional: unknown.
struct Glue
{
  std::optional<std::string> kind;
  double thickness = 0.1e-3;
};

struct Strings
{
  std::string set;           // name in the table of strings
  double pitch_shift = 0;    // semitones against the set's standard pitch
  double height_at_nut = 0;  // string centre above the board top at the nut
  double height_at_join = 0; // above the board top at the body join
};

enum class TunerLayout { both_sides, bass_line, treble_line };

struct Tuners
{
  std::string kind; // name in the table of tuners
  TunerLayout layout = TunerLayout::both_sides;
  double first_post = 0; // from the nut to the first post, along the headstock
  double last_post = 0;
  double across = 0; // spacing across between the two rows (both_sides), offset (in line)
};

enum class Finish { bare, oil, shellac, nitro_lacquer, acrylic, polyester, polyurethane, unknown };
enum class FinishCondition { sound, worn };
enum class Binding { none, celluloid, plastic, wood, unknown };

// Finish of one face: what moisture has to pass.
struct FinishedFace
{
  Finish kind = Finish::unknown;
  FinishCondition condition = FinishCondition::sound;
};

// back: back and sides of the shaft and the heel. board: top and edges of the fingerboard.
struct FinishedFaces
{
  FinishedFace back, board, headstock;
};

// Which branch of the sorption curve the wood is on: it took up water, it dried, or in between.
enum class SorptionBranch { taking_up, drying, mean };

struct ClimatePoint
{
  double time = 0; // s from the start of the phase
  double temperature = 0, humidity = 0;
};

// Air that changes while a phase lasts: straight lines between points in order of time. See
// cases/case/climate.h for the air at a time.
struct Climate
{
  std::string file;    // table as named in the case; empty: the months of [climate]
  bool repeats = true; // a table that ends before the phase begins anew
  int month = 0;       // 0 = January: months of [climate] begin there
  std::vector<ClimatePoint> points;
  double period = 0; // s after which the points come again; 0: the air stays as it is at the last
  // On one evening of each week the air around the instrument is hot and keeps its water.
  double hot_hours = 0, hot_temperature = 0; // s of each week, K
};

// Hot evenings of the months of [climate]: on a stage, in a car.
struct HotEvenings
{
  double hours = 0, temperature = 0; // s of each week, K
};

// What is known of the water in the wood at the start. None of content, humidity and past: the neck
// is in equilibrium with the room. More than one of them is refused.
struct Moisture
{
  std::optional<double> content;     // measured by a pin meter, kg/kg
  std::optional<double> humidity;    // of the air it lived in, 0..1
  std::optional<double> temperature; // of that air, K; empty: as the room
  double lived_for = 0;              // time in that air; before that as it was built
  // The neck lived in air that changed: in the months of [climate] for lived_for, until the middle
  // of climate_to (1 = January, 0: not told), or in a table from its first row to its last. It
  // began at rest with the first air.
  int climate_to = 0;
  Climate past; // points: resolved, time 0 is the beginning
  SorptionBranch branch = SorptionBranch::mean;
  double built_at = 0.47; // humidity of the shop that glued it together
};

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

struct Air
{
  double temperature = 293.15;
  double humidity = 0.5;        // relative, 0..1
  double film = 8;              // convection coefficient of a free face, W/(m^2 K)
  bool wrapped = false;         // all wood that the bar does not cover, in dry cloth
  double wrap_conductance = 4;  // of heat, through the wrap alone, W/(m^2 K)
  double wrap_resistance = 3e7; // to water, of the wrap alone, s/m of moisture content
};

// What gives the heat. thermostat, blanket: held by a thermostat within the power, over a part of
// the bar or over its whole length. dabbed: an iron by hand, held by what a thermometer shows, the
// power that of the hand on average. parked: an iron left on the bar under its own thermostat; what
// the bar comes to is then nobody's choice.
enum class HeatSource { thermostat, parked, dabbed, blanket };

// Which thermometer the heat is held by. probe: the one of [probe], and the bar is never taken
// above its own temperature, read by a second one.
enum class HeldBy { bar, probe };

// Underside of the bar: flat, or shaped (or packed) to the board's radius.
enum class Underside { flat, shaped };

// Whether the bar lies on frets or on bare wood.
enum class BarOnFrets { in, out };

struct Heater
{
  BarMaterial metal = BarMaterial::aluminium;
  double width = 0, thickness = 0; // section of the bar
  double from = 0, to = 0;         // x of its ends; from < 0 overhangs the nut
  Underside underside = Underside::flat;
  BarOnFrets frets = BarOnFrets::in;
  double contact = 0; // conductance to the board top where the bar touches, W/(m^2 K)
  double film = 10;   // loss from its top, W/(m^2 K)
  HeatSource source = HeatSource::thermostat;
  HeldBy held_by = HeldBy::bar;
  double iron_from = 0, iron_to = 0; // part of the bar that the iron touches
  double power = 0;                  // limit of the iron, W; not of a parked one
  double iron_temperature = 0;       // of a parked iron's soleplate
  double iron_contact = 0;           // from a parked iron to the bar, W/(m^2 K)
  double overshoot = 0;              // K, by which what holds the heat may pass its figure
  double bar_temperature = 0;        // held at bar_sensor, or never passed there (HeldBy)
  double bar_sensor = 0;             // x of the thermostat's sensor on the bar
  double overhang_contact = 0;       // from the bar over the nut to the headstock's face, W/(m^2 K)
};

struct Probe
{
  double x = 0;
  double across = 0;  // -1 bass edge .. +1 treble edge
  double height = 0;  // z; 0 is the glue plane
  double hold_at = 0; // held by the probe: the temperature it is to show
};

enum class BodyHold { rigid, pads };

// What bends the neck over the cradle.
//   posts: cords from posts of the headstock;
//   strap: a strap over the shaft just behind the nut, one pull in the middle: bow alone;
//   headstock_bar: a bar clamped across the headstock, a cord at each end: bow, and twist up to arm
//     times pull;
//   strap_and_bar: the strap for the bow; the bar's cords pull one down and one up alike: twist;
//   caul: presses the board between two supports under the back: bows the neck forward.
enum class Device { posts, strap, headstock_bar, strap_and_bar, caul };

// A post by its side and its number, counted from the nut.
struct Post
{
  Side side = Side::bass;
  int number = 1;
};

struct Bench
{
  BodyHold hold = BodyHold::pads;
  double pad_stiffness = 0;  // rotation of the body on its pads about y, N m/rad
  double pad_distance = 0;   // from the body join to the middle of the pads, along x
  double cradle_x = 0;       // middle of the cradle pad
  double cradle_width = 0;   // along x
  double cradle_pad = 0;     // stiffness of the pad per area, N/m^3
  double cord_stiffness = 0; // one cord, post to bench, N/m
  double cord_diameter = 0;
  double cord_limit = 300;  // N, one cord
  double nut_stiffness = 0; // bearing of the board end on the nut, N/m; 0: nut is out
  bool stop_block = false;  // rigid block below the headstock: its height decides
  Device device = Device::posts;
  // The instrument lies face down: cradle and supports bear on the board, the headstock is pulled
  // towards the strings, a caul presses the back. Everything bends the other way.
  bool turned_over = false;
  std::vector<Post> posts; // empty: the middle one of each side
  double bar_arm = 0;      // bar across the headstock: centre line to the cord, each side
  double bar_place = 0;    // its middle from the nut, along the headstock
  double bar_moment = 0;   // what it bears in bending, N m
  double strap_x = 0;      // middle of the strap, negative: behind the nut
  double strap_width = 0;  // along the neck
  double strap_stiffness = 0, strap_limit = 0; // of the whole strap, N/m and N
  double caul_x = 0, caul_width = 0;           // middle of the caul, and its length along the neck
  double caul_stiffness = 0, caul_limit = 0;   // of its clamp, N/m and N
  double support_nut = 0, support_body = 0;    // x of the middles of its two supports
};

// A pull of the cords at the start of a phase. to_reading: the two take-ups are found so that the
// bench reads `bow` (centre, at Found::bow_fret) and `twist`. The plan overrides the numbers.
struct Pull
{
  enum class Kind { none, take_up, to_reading } kind = Kind::none;
  double take_up_bass = 0, take_up_treble = 0;
  double bow = 0, twist = 0;
  // Whether the plan's overbend is reached by this pull. A cold pull before a hot re-reading only
  // brings the neck straight: what it would take further cold is force for nothing.
  bool decides = true;
};

enum class PhaseKind {
  store,
  condition,
  clamp,
  heat,
  hold,
  reread,
  cool,
  release,
  rest,
  string_up,
  warm_free,
  play
};

// Air of one month as a mean.
struct MonthAir
{
  double temperature = 0, humidity = 0;
};

// One phase, with everything that is on the bench and in the air while it lasts (already merged
// with what the phases before it left there).
struct Phase
{
  PhaseKind kind = PhaseKind::rest;
  std::string name; // as shown to the user, unique in the case
  double duration = 0;
  int line = 0; // line in the case file, 0 if the schedule is the default one
  Air air;
  bool strings = false;
  RodState rod = RodState::slack;
  bool cradle = false;
  bool cords = false;
  bool block = false; // stop block in place
  bool nut = true;    // nut in its slot
  bool heater = false;
  double bar_temperature = 0; // while heater is on; 0 under a parked iron, which nobody holds
  Pull pull;
  int pass = 1;    // which correction it belongs to: 2 from the second clamping on
  Climate climate; // play only; no points: `air` holds throughout
};

// What kitchen foil under the cloth of a wrap holds back of the wood's water, s/m of moisture
// content: the foil itself passes none, its overlaps and ends do [E].
constexpr double foil_resistance = 3e8;

// Durations and switches of the default schedule, used when the file lists no [[phase]]. Times in
// s.
struct Schedule
{
  bool warm_free = false;
  double warm_free_time = 0;
  double clamp = 0, heat = 0;
  bool reread = true;
  double reread_time = 0, hold = 0, cool = 0, release = 0, rest = 0;
  bool wrap = false;
  bool wrap_foil = false; // kitchen foil under the cloth: foil_resistance
  bool nut = false;
  double play = 0; // after the target's reading, in the air of [climate]
  int month = 0;   // in which that begins
};

struct Target
{
  double relief = 0; // strung, centre, at Found::bow_fret
  double twist = 0;
  double after_release = 0; // time of the target reading after release
  RodState rod = RodState::slack;
  double bow_tolerance = 0.02e-3;
  double twist_tolerance = 0.03 * 3.14159265358979323846 / 180;
};

struct Numerics
{
  double resolution = 1;       // 1 is the default mesh; 2 has about twice the cells each way
  double bow_error = 0.002e-3; // error of a time step allowed in the bow
};

// What the file leaves open and a plan chooses; `simulate` takes the value at hand, the declared
// default. Nothing is open where the file lists its phases.
struct LeftOpen
{
  bool bar_temperature = false; // Heater::bar_temperature
  bool bar_ends = false;        // Heater::to, iron_to
  bool bar_width = false;       // Heater::width
  bool wrap = false;            // Schedule::wrap
  bool wrap_foil = false;       // Schedule::wrap_foil, Air::wrap_resistance
  bool hold = false;            // Schedule::hold
  bool device = false;          // what pulls the headstock down
  bool cradle = false;          // Bench::cradle_x
};

struct Case
{
  std::string title;
  std::string text; // the file, verbatim
  std::string file; // its name, as given
  std::string preset;
  // Line of each "section.key" (and of each "section") in the file; phases are "phase[1]" on,
  // strips "lamination[1]" on.
  std::map<std::string, int> lines;
  NeckShape neck;
  Glue board_glue, scarf_glue;
  Strings strings;       // to be put on after the repair
  Strings strings_found; // the ones the neck lived under
  Tuners tuners;
  Finish finish = Finish::unknown; // of the neck; the same as faces.back.kind
  FinishedFaces faces;
  Binding binding = Binding::unknown;
  Found found;
  FirstPass first_pass;
  Readings readings;
  Warp warp;
  Air room;
  Moisture moisture;
  GrainScatter scatter;
  std::array<MonthAir, 12> year; // indoor air, January first
  HotEvenings hot_evenings;      // within that
  Heater heater;
  Probe probe;
  Bench bench;
  Schedule schedule;
  bool phases_listed = false; // by the file; otherwise `phases` are those of the schedule
  LeftOpen left_open;
  std::vector<Phase> phases;
  Target target;
  Numerics numerics;
};

// Line of "section.key" in the case file; if the file does not have it, the line of its section,
// of the preset, or 1: where the reader should look first.
int line_of(const Case &result, const std::string &name);

// x of a fret: distance from the nut, by the equal-tempered rule x = L (1 - 2^(-n/12)).
double fret_position(double scale_length, int fret);
} // namespace overbend::cases
