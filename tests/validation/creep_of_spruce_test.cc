// SPDX-License-Identifier: GPL-3.0-or-later
#include "materials/sorption.h"
#include "tests/claims.h"
#include "tests/law/point.h"

#include <array>
#include <vector>

// Creep of spruce against an open data set: Maas and Wittel, "From Elasticity to Creep: Orthotropic
// moisture-dependent Rheology of Norway Spruce", data CC BY 4.0. Norway spruce, 20 degC, 30 days,
// relative creep eps/eps_0 - 1, mean of n tests.
//
// The chain is a fit to another experiment along the grain (Hayashi, Felix and Le Govic 1993), so
// along the grain at 65 % the two are independent. The ratios across and in shear were chosen with
// the 65 % data in hand (rounded means over time), and the shift with moisture is the median of the
// data set's own fits: there the tables show how good one ratio and one shift are, not more.
// Moisture is what the handbook's curve gives for the humidity.
//
// Tolerances stated beforehand: along the grain 0.05, since the readings scatter by 0.03; across
// and in shear 35 % of the measured value, since replicates and the two signs scatter by a third.
// Rows outside are called MISS and stay so. What is claimed of every row is a factor: 1.5 along the
// grain (the spread the table states for the chain) beside the scatter of the readings, 2.5 across
// and in shear.
//
// Where it misses: along the grain at 65 % the law creeps less than this spruce at every time. In
// the first hours across the grain and in shear it creeps half as much as measured: there the
// wood starts fast and flattens, which one ratio for all times cannot do. At 90 % one shift for all
// directions is too little for R and too much for LR shear.
namespace overbend::tests
{
namespace
{
// Creep strain over elastic strain after a time, of the table's spruce under one stress component.
double relative_creep(unsigned direction, double time, double humidity = 0.65, double degrees = 20)
{
  const materials::WoodLaw law(materials::tables().wood("Norway spruce"));
  materials::Vector6 stress{};
  stress[direction] = MPa;
  const double T = kelvin(degrees), m = materials::equilibrium_moisture(kelvin(20), humidity);
  materials::WoodState state;
  const auto now = law.prepare(T, T, 0, m);
  law.finish(state, now, law.active(state, now, stress), stress);
  const auto step = law.prepare(T, T, time, m);
  const auto active = law.active(state, step, stress);
  const double strain = (law.tangent(step, active) * stress)[direction] +
                        law.history(state, step, active)[direction] - step.free_strain1[direction];
  return strain / (law.elastic(T, m) * stress)[direction] - 1;
}

struct Reading
{
  const char *name;
  double time;
};
constexpr Reading h1{"1 h", hour}, h6{"6 h", 6 * hour}, d1{"1 d", day}, d5{"5 d", 5 * day},
    d10{"10 d", 10 * day}, d20{"20 d", 20 * day}, d29{"29 d", 29 * day};

// The data set's own mean Kelvin coefficients (2, 20, 200, 2000 h), fitted to each group of tests:
// creep after 1, 10 and 29 days for the climates and directions whose readings are not printed.
std::vector<std::pair<Reading, double>> fitted(const std::array<double, 4> &share)
{
  std::vector<std::pair<Reading, double>> creep;
  for (const Reading &reading : {d1, d10, d29}) {
    double sum = 0, time = 2 * hour;
    for (const double g : share) {
      sum += g * (1 - std::exp(-reading.time / time));
      time *= 10;
    }
    creep.push_back({reading, sum});
  }
  return creep;
}

struct Series
{
  unsigned direction;
  const char *name;
  double humidity;
  std::vector<std::pair<Reading, double>> creep;
};

// Rows of one table of series; the tolerance claimed is `factor` times the larger of the two values
// plus `scatter`.
void compare(Claims &claims, const std::vector<Series> &all, bool is_along, double factor)
{
  for (const Series &series : all)
    for (const auto &[reading, measured] : series.creep) {
      const double got = relative_creep(series.direction, reading.time, series.humidity);
      const double stated = is_along ? 0.05 : 0.35 * measured;
      const double scatter = is_along ? 0.03 : 0;
      const double claimed = scatter + (1 - 1 / factor) * std::max(measured, got);
      claims.check(std::string(series.name) + ", " +
                       std::to_string(int(100 * series.humidity + 0.5)) + " % humidity, after " +
                       reading.name,
                   measured, got, stated, std::max(stated, claimed));
    }
}
} // namespace

TEST(CreepOfSpruce, AlongTheGrainAtThreeHumidities)
{
  Claims claims("Creep of spruce along the grain, share of the elastic strain",
                "Maas and Wittel, CC BY 4.0");
  compare(claims,
          {{0,
            "L, mean of tension and compression",
            0.65,
            {{h1, 0.0605},
             {h6, 0.093},
             {d1, 0.1105},
             {d5, 0.153},
             {d10, 0.148},
             {d20, 0.198},
             {d29, 0.1975}}},
           {0, "L tension", 0.35, {{h1, 0.033}, {d1, 0.060}, {d10, 0.165}, {d29, 0.193}}},
           {0,
            "L compression, one test",
            0.90,
            {{h1, 0.053}, {d1, 0.221}, {d10, 0.374}, {d29, 0.376}}}},
          true, 1.5);
  claims.expect_misses(3);
}

TEST(CreepOfSpruce, AcrossTheGrain)
{
  Claims claims("Creep of spruce across the grain, share of the elastic strain",
                "Maas and Wittel, CC BY 4.0");
  compare(claims,
          {{1,
            "R, mean of tension and compression",
            0.65,
            {{h1, 0.2565},
             {h6, 0.355},
             {d1, 0.449},
             {d5, 0.697},
             {d10, 0.8305},
             {d20, 0.9395},
             {d29, 1.0275}}},
           {2,
            "T tension",
            0.65,
            {{h1, 0.603},
             {h6, 0.675},
             {d1, 0.796},
             {d5, 1.108},
             {d10, 1.224},
             {d20, 1.352},
             {d29, 1.438}}},
           {1, "R tension", 0.90, {{h1, 0.541}, {d1, 1.637}, {d10, 2.711}, {d29, 3.181}}}},
          false, 2.5);
  claims.expect_misses(5);
}

TEST(CreepOfSpruce, InShear)
{
  Claims claims("Creep of spruce in shear, share of the elastic strain",
                "Maas and Wittel, CC BY 4.0");
  compare(claims,
          {{3,
            "RT shear",
            0.65,
            {{h1, 0.176},
             {h6, 0.247},
             {d1, 0.291},
             {d5, 0.346},
             {d10, 0.376},
             {d20, 0.412},
             {d29, 0.446}}},
           {4,
            "LT shear",
            0.65,
            {{h1, 0.223},
             {h6, 0.240},
             {d1, 0.300},
             {d5, 0.390},
             {d10, 0.434},
             {d20, 0.485},
             {d29, 0.524}}},
           {5,
            "LR shear",
            0.65,
            {{h1, 0.196},
             {h6, 0.223},
             {d1, 0.274},
             {d5, 0.345},
             {d10, 0.357},
             {d20, 0.410},
             {d29, 0.436}}},
           {4, "LT shear", 0.35, {{h1, 0.118}, {d1, 0.220}, {d10, 0.413}, {d29, 0.544}}},
           {5, "LR shear", 0.35, {{h1, 0.093}, {d1, 0.206}, {d10, 0.402}, {d29, 0.512}}},
           {5, "LR shear", 0.90, {{h1, 0.208}, {d1, 0.367}, {d10, 0.599}, {d29, 0.735}}}},
          false, 2.5);
  claims.expect_misses(8);
}

// What is not printed above, from the data set's own fits to its tests (R2 0.42 for L at 35 %, else
// 0.75 to 0.99). Along the grain the two signs differ up to two to one, and the law has no sign: it
// creeps less than compression at 35 % and more than tension at 90 %.
TEST(CreepOfSpruce, InTheClimatesKnownByTheDataSetsFits)
{
  Claims along("Creep of spruce along the grain, share of the elastic strain",
               "Maas and Wittel, CC BY 4.0, fitted coefficients");
  compare(along,
          {{0, "L compression", 0.35, fitted({0.0, 0.1165, 0.0424, 0.3696})},
           {0, "L tension", 0.90, fitted({0.1461, 0.0351, 0.0, 0.0237})}},
          true, 2.5);
  Claims claims("Creep of spruce across the grain and in shear, share of the elastic strain",
                "Maas and Wittel, CC BY 4.0, fitted coefficients");
  compare(claims,
          {{1, "R compression", 0.35, fitted({0.2208, 0.2585, 0.5189, 0.5765})},
           {1, "R tension", 0.35, fitted({0.1740, 0.1068, 0.0, 0.6404})},
           {2, "T compression", 0.35, fitted({0.3893, 0.8222, 0.6086, 0.7250})},
           {2, "T tension", 0.35, fitted({0.5556, 0.0194, 0.0849, 1.3907})},
           {3, "RT shear", 0.35, fitted({0.1645, 0.1302, 0.1023, 0.1712})},
           {2, "T compression", 0.65, fitted({0.4240, 0.2394, 0.5385, 0.9791})},
           {1, "R compression", 0.90, fitted({0.4484, 0.3997, 1.6400, 0.0080})},
           {2, "T compression", 0.90, fitted({0.7332, 0.5161, 1.2594, 0.1921})},
           {2, "T tension", 0.90, fitted({0.8925, 1.2678, 1.3816, 0.0})},
           {3, "RT shear", 0.90, fitted({0.9077, 0.3008, 0.2585, 0.0311})},
           {4, "LT shear", 0.90, fitted({0.2975, 0.2075, 0.4555, 0.1210})}},
          false, 2.5);
  along.expect_misses(4);
  claims.expect_misses(7);
}

// Source: Wood Handbook, chapter 5: 28 K more multiplies creep two to three times.
TEST(CreepOfSpruce, TwentyEightKelvinMultiplyItTwoToThreeTimes)
{
  for (const double time : {2 * hour, day, 30 * day})
    expect("Creep at 48 over creep at 20 degC", "after " + std::to_string(int(time / hour)) + " h",
           "Wood Handbook ch. 5", 2.5, relative_creep(0, time, 0.65, 48) / relative_creep(0, time),
           0.5);
}
} // namespace overbend::tests
