// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <array>
#include <optional>
#include <string>
#include <utility>
#include <vector>

// The tables of woods, glues, bars, strings, tuners and finishes.
//
// The numbers live in data files (woods.toml and so on). In the file every number has a value, a
// unit, a spread, a source and a status mark; all of that is kept in `numbers` of each entry. The
// other members are the same numbers in SI, ready for the laws. They are checked when read.
namespace overbend::materials
{
constexpr unsigned n_directions = 6;             // LL, RR, TT, RT, LT, LR, as in Vector6
constexpr double reference_temperature = 293.15; // K, 20 degC: state of the table values
constexpr double reference_moisture = 0.12;      // kg/kg

// Where a number comes from. [S] read in the source, [M] from memory of the source,
// [E] estimate or common practice without source, [C] computed from other numbers.
enum class Mark { source_read, memory, estimate, computed };

// One line of a table, as written in the file.
struct Quantity
{
  std::string key;
  std::vector<double> value; // in `unit`; one number, or all of a list
  std::string unit;
  std::string spread;                             // in words and numbers, as printed
  std::optional<std::pair<double, double>> range; // in `unit`; for a CoV one deviation each way
  Mark mark = Mark::estimate;
  std::string source;
  int line = 0;
};

// What all entries have: name, other accepted names, all lines, and what is known to be missing.
struct Entry
{
  std::string name;
  std::vector<std::string> aliases;
  std::vector<Quantity> numbers;
  std::vector<std::string> missing; // key and reason, as printed

  const Quantity &number(const std::string &key) const; // throws std::out_of_range
};

// A share that grows linearly with the moisture content between two points and is constant beyond.
struct MoistureLine
{
  double dry_moisture = 0, dry = 0; // kg/kg, share
  double wet_moisture = 1, wet = 0;

  double at(double moisture) const;
};

// P/P12 at a moisture content (kg/kg) of a property whose green value is green_ratio P12, by the
// Wood Handbook, Eq. 5-3: P = P12 (P12/Pg)^((12 - M)/(Mp - 12)), at about 21 degC. Moisture is held
// within 0 and the intersection Mp. Not for work, impact or tension across the grain.
double moisture_factor(double green_ratio, double intersection, double moisture);

// Strength of clear wood at 12 % moisture content and 20 degC, Pa. A missing one is unknown, and
// the criterion says so. Green values (above fibre saturation) serve the moisture formula; without
// its green value a strength stays as at 12 %.
struct WoodStrength
{
  double bending = 0; // modulus of rupture; also taken as tension along
  std::optional<double> bending_green;
  double compression_along = 0;
  std::optional<double> compression_across; // proportional limit
  std::optional<double> shear_along;
  std::optional<double> tension_across;
  double rolling_shear_share = 0; // of shear_along
  std::optional<double> compression_along_green, compression_across_green, shear_along_green;

  // Share lost at 50 degC.
  MoistureLine bending_drop, compression_along_drop, compression_across_drop;
  MoistureLine tension_across_drop, shear_drop;
};

struct Wood : Entry
{
  // Elastic, at 12 % moisture content and 20 degC, Pa. E_L is the true one (bending value + 10 %).
  double E_L = 0, E_R = 0, E_T = 0;
  double G_RT = 0, G_LT = 0, G_LR = 0;
  double nu_LR = 0, nu_LT = 0, nu_RT = 0; // first letter: direction of the load

  // Moduli against moisture: P = P12 (P12/Pg)^((12-M)/(Mp-12)) for E_L (Wood Handbook Eq. 5-3),
  // its factor to the power of the exponent for the other moduli. M is held within 0 and Mp.
  double modulus_green_ratio = 1;      // Pg/P12 of E_L
  double moisture_intersection = 0.25; // Mp, kg/kg
  std::array<double, n_directions> moisture_exponent{};

  // Reversible drop with temperature. Along: share lost per kelvin of the modulus at 20 degC
  // (linear). Across: share lost at +30 K for 6 %, 12 % and 20 % moisture (exponential through
  // it). In shear: share lost at +30 K.
  double drop_along = 0;
  std::array<double, 3> drop_across{};
  double drop_shear = 0;

  // Creep: chain along the grain, ratios of the six directions against L.
  double creep_instant = 0;        // part that is there at once, share of the elastic strain
  std::vector<double> creep_time;  // s, at 20 degC; at most 8; empty: no creep
  std::vector<double> creep_share; // g_i
  std::array<double, n_directions> creep_ratio{};
  double irrecoverable_share = 0;
  double activation_energy = 0; // J/mol

  // Creep shift with moisture: logistic in the moisture content, see WoodLaw::shift.
  double creep_moisture_gain = 0; // rise of ln a from dry to saturated
  double creep_moisture_middle = 0.2, creep_moisture_width = 0.01; // kg/kg

  // Mechano-sorptive creep: moisture travelled (kg/kg) over which an element comes within 1/e of
  // its end, and its share of the elastic strain in the six directions; at most 4, none: no such
  // creep. First-drying set: share of the elastic strain per kg/kg of moisture newly lost.
  std::vector<double> sorptive_moisture;
  std::vector<std::array<double, n_directions>> sorptive_share;
  std::array<double, n_directions> drying_set{};

  // Swelling along the grain per kg/kg below and above a knee; across it is by the shrinkage below.
  // Of strained wood it is less by the factor times the strain, WoodLaw.
  double swelling_L_dry = 0, swelling_L_damp = 0, swelling_knee = 0.08; // kg/kg
  double swelling_strain_factor = 0;
  double kiln_moisture = 0;       // kg/kg, the driest this wood has been before it became a neck
  double fibre_saturation = 0.30; // kg/kg, no change beyond (Wood Handbook Eq. 4-9)

  // Diffusion of bound water: see materials/moisture_transport.h.
  double diffusion_12 = 0, diffusion_slope = 0;             // m^2/s with the factor of the wood, -
  double diffusion_energy = 0, diffusion_energy_fall = 0;   // J/mol, J/mol per kg/kg
  double diffusion_ratio_dry = 1, diffusion_ratio_damp = 1; // along against across

  // Thermal expansion at the reference, 1/K, in L, R, T.
  std::array<double, 3> expansion{};

  // Mass and heat. Gravity is oven-dry mass on green volume; shrinkage is green to oven-dry.
  double gravity_green = 0;
  double shrinkage_R = 0, shrinkage_T = 0, shrinkage_volume = 0;
  double conduction_ratio = 0; // along against across

  WoodStrength strength;
};

// A glue as a layer: generalised Maxwell in shear, times at the softening temperature.
struct Glue : Entry
{
  std::vector<double> branch_modulus; // Pa
  std::vector<double> branch_time;    // s, at the softening temperature
  double plateau = 0;                 // G_inf, Pa: 0 for a glue that flows
  double bulk_modulus = 0;            // Pa
  double water_conductance = 0;       // kg/(m^2 s) for a difference of moisture content of 1
  double wlf_c1 = 0, wlf_c2 = 0;      // -, K (decimal logarithm)
  double activation_energy = 0;       // J/mol, below the softening temperature

  // Softening temperature, K. Either fixed at 50 % relative humidity with a slope (K per unit of
  // humidity), or by the Gordon-Taylor rule from the water in the glue (animal glues).
  double softening = 0;
  double softening_slope = 0;
  bool animal = false;
  double dry_softening = 0;                // K
  double water_softening = 0;              // K
  double gordon_taylor = 0;                // k
  double water_at_45 = 0, water_at_70 = 0; // mass fraction of water at 45 % and 70 % humidity

  // Uncertainty of the whole time scale (decimal decades each way), of softening (K each way), and
  // of the thickness of a line that nobody can measure (m).
  double time_scale_decades = 0;
  double softening_spread = 0;
  double thickness = 0, thinnest = 0, thickest = 0;
  // Set by at_speed(): on all branch times, and K on the softening temperature.
  double time_factor = 1, softening_shift = 0;

  double strength_cold = 0;            // bond in shear at 20 degC, Pa
  double strength_hot = 0;             // at strength_hot_temperature, Pa
  double strength_hot_temperature = 0; // K
  double temperature_limit = 0;        // K, of the line at the bench
};

// The three columns of a plan. A fast line has its time scale, its softening temperature and its
// thickness all at the end of their spread where it slips more, a slow one at the other: what
// at_speed() returns has the first two, and line_thickness() is that of a line told or taken to be
// `thickness` thick. Ends of three spreads at once: together they go beyond what the anchors of
// glues.toml let a single line do (tests/law), so they bound a neck and describe none.
enum class LineSpeed { slow, middle, fast };

// Place of a line within its spread: -1 slow, 0 middle, 1 fast, and any line between them. A line
// that was read after a pass has one of its own.
double place_in_spread(LineSpeed speed);

// `place` from -1 to 1: time scale 10^(-place decades), softening lower by place times its spread.
Glue at_speed(const Glue &glue, double place);
Glue at_speed(const Glue &glue, LineSpeed speed);

// Thickness (m) of a line told or taken to be `thickness` thick, in geometric steps to its ends.
double line_thickness(const Glue &glue, double thickness, double place);
double line_thickness(const Glue &glue, double thickness, LineSpeed speed);

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
