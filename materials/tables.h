// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "materials/glue_entry.h"
#include "materials/wood_entry.h"

#include <array>
#include <string>
#include <vector>

// The tables of woods, glues, bars, strings, tuners and finishes.
//
// The numbers live in data files (woods.toml and so on). In the file every number has a value, a
// unit, a spread, a source and a status mark; all of that is kept in `numbers` of each entry. The
// other members are the same numbers in SI, ready for the laws. They are checked when read.
namespace overbend::materials
{
// A bar of metal or carbon: glued in, or lying on the board to spread the heat.
struct Bar : Entry
{
  double modulus = 0;          // Pa, along
  double modulus_across = 0;   // Pa
  double shear_modulus = 0;    // Pa
  double poisson = 0;          // along-across
  double expansion = 0;        // 1/K, along
  double expansion_across = 0; // 1/K
  double conductivity = 0;     // W/(m K), along
  double density = 0;          // kg/m^3
  double heat_capacity = 0;    // J/(kg K)
};

// The bar as a piece without creep or moisture, L along it, for the laws and the mesh.
// Only the elastic members, the expansion and the name are set.
Wood as_piece(const Bar &bar);

struct String
{
  double mass = 0;      // per length, kg/m
  double frequency = 0; // Hz, at standard pitch
};

// Strings from treble to bass.
struct StringSet : Entry
{
  std::vector<String> strings;
};

// What holds a post: a worm gear for steel strings, the roller of a slotted headstock, a small
// geared tuner, a peg.
enum class TunerKind { worm, roller, small, peg };

struct Tuner : Entry
{
  double post_diameter = 0; // m
  double ratio = 0;         // turns of the button for one of the post
  TunerKind kind = TunerKind::worm;
  // Of what the set pulls on the post every day: caution and no, sideways; see post_limit().
  double caution_share = 0, refuse_share = 0;
  double side_floor = 0;  // N: a worm gear is not refused below it
  double along_limit = 0; // N, along the post
};

// A finish as a barrier to water, see materials/moisture_transport.h, and the heat it bears.
struct Finish : Entry
{
  double prints_from = 0, keep_below = 0;               // K, of its surface
  double film_resistance = 0, film_resistance_worn = 0; // s/m of moisture content, at 20 degC
  double air_emission = 0;                              // m/s, bare dry wood into still air
  double air_emission_slope = 0;                        // per kg/kg
};

// Where a correction has to stop, and what is too small to work on. Each is explained where its
// value stands, in limits.toml.
struct WorkLimits : Entry
{
  double hottest = 0, hottest_unknown = 0, plastic_softens = 0; // K
  double line_known = 0, line_unknown = 0;                      // K
  double surface_known = 0, fret_tops_known = 0;                // K
  double kept_an_hour = 0, condition_humidity = 0;
  double least_strung = 0, rod_forward = 0;               // m
  double overbend = 0, overbend_long = 0, long_scale = 0; // m
  double wood_use_caution = 0, wood_use_refuse = 0, bond_use_caution = 0, bond_use_hot = 0;
  double bond_hot_time = 0;                           // s
  double least_bow = 0, bow_miss = 0, least_lift = 0; // m
  double least_twist = 0, twist_miss = 0;             // rad
  double over_bridge_error = 0;                       // m
  double stiffness_doubt = 0, stiffness_least = 0, stiffness_most = 0;
  double least_kept = 0, much_in_the_wood = 0;

  // m past straight, by the scale length (m).
  double most_overbend(double scale) const { return scale > long_scale ? overbend_long : overbend; }
};

// One table file as it was read, for the record of the run.
struct TableFile
{
  std::string name;
  std::string sha256; // of its bytes, hexadecimal
};

struct Tables
{
  std::vector<Wood> woods;
  std::vector<Glue> glues;
  std::vector<Bar> bars;
  std::vector<StringSet> string_sets;
  std::vector<Tuner> tuners;
  std::vector<Finish> finishes;
  WorkLimits limits;
  std::vector<TableFile> files;
  std::string folder;

  // By name or alias, case ignored. An unknown name throws cases::CaseError with the nearest name;
  // file and line say where the name was written (empty and 0: not from a file).
  const Wood &wood(const std::string &name, const std::string &file = "", int line = 0) const;
  const Glue &glue(const std::string &name, const std::string &file = "", int line = 0) const;
  const Bar &bar(const std::string &name, const std::string &file = "", int line = 0) const;
  const StringSet &string_set(const std::string &name, const std::string &file = "",
                              int line = 0) const;
  const Tuner &tuner(const std::string &name, const std::string &file = "", int line = 0) const;
  const Finish &finish(const std::string &name, const std::string &file = "", int line = 0) const;
};

// Reads and checks all tables in a folder. Throws cases::CaseError naming file, line and entry: a
// missing number, unit, spread, source or mark, a number that is not finite or out of range, a
// compliance that is not positive definite.
Tables read_tables(const std::string &folder);

// The folder in use: OVERBEND_TABLES if set, else share/overbend/tables beside the folder of the
// program if it exists, else the source folder known when the library was built.
std::string tables_folder();

// The tables of this run, read at the first call.
const Tables &tables();

// "S", "M", "E" or "C".
const char *letter(Mark mark);

// Printable lines of one entry for the list command: key, value, unit, spread, mark, source.
std::vector<std::array<std::string, 6>> rows(const Entry &entry);
} // namespace overbend::materials
