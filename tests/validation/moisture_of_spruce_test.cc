// SPDX-License-Identifier: GPL-3.0-or-later
#include "materials/sorption.h"
#include "materials/wood_law.h"
#include "tests/claims.h"
#include "tests/law/point.h"

// Swelling and sorption of spruce against an open data set: Maas and Wittel, data CC BY 4.0: ten
// specimens a direction, 20 degC, steps of humidity up and down.
namespace overbend::tests
{
namespace
{
struct Step
{
  const char *name;
  double percent, T, R, L; // moisture content, strain relative to the first step
};
const Step steps[] = {{"5 %", 1.83, 0, 0, 0},
                      {"23 %", 5.43, 0.01045, 0.00645, 0.00073},
                      {"35 %", 6.68, 0.01458, 0.00857, 0.00092},
                      {"50 %", 9.85, 0.02551, 0.01463, 0.00127},
                      {"65 %", 11.16, 0.03101, 0.01739, 0.00129},
                      {"79 %", 14.63, 0.04234, 0.02351, 0.00138},
                      {"85 %", 16.65, 0.04944, 0.02717, 0.00140},
                      {"95 %", 22.45, 0.06775, 0.03567, 0.00135},
                      {"65 %, drying", 14.34, 0.04071, 0.02294, 0.00131},
                      {"50 %, drying", 11.23, 0.02941, 0.01694, 0.00120},
                      {"35 %, drying", 8.10, 0.01841, 0.01084, 0.00102},
                      {"5 %, drying", 1.57, -0.00307, -0.00173, 0.00008}};
} // namespace

// The slopes of R and T in the table are a straight line through these data, those of L are the
// data's own two lines: this shows that the forms hold, within 5 % of the full range across and
// along the grain within 0.00015, some 10 % of the range. The same moisture on the way up and down
// differs by 0.0001 along the grain.
TEST(SwellingOfSpruce, IsStraightAcrossAndBentAlongTheGrain)
{
  const materials::Wood &wood = materials::tables().wood("Norway spruce");
  for (const Step &step : steps) {
    const auto strain =
        materials::swelling_strain(wood, steps[0].percent / 100, step.percent / 100);
    const std::string source = "Maas and Wittel, CC BY 4.0";
    expect("Swelling of spruce", std::string("T at ") + step.name, source, step.T, strain[2],
           0.05 * 0.0708);
    expect("Swelling of spruce", std::string("R at ") + step.name, source, step.R, strain[1],
           0.05 * 0.0374);
    expect("Swelling of spruce", std::string("L at ") + step.name, source, step.L, strain[0],
           0.00015);
  }
}

// Nothing of these numbers is in the law: shrinkage of another spruce by the handbook (from memory)
// against this tree. Stated: 5 % of the full range. Single trees differ; what is claimed is the
// range of 987 specimens (Bengtsson 2001, read in an abstract): 0.18-0.46 (T), 0.07-0.28 (R).
TEST(SwellingOfSpruce, OfAnotherSpruceByTheHandbookIsLess)
{
  const materials::Wood &wood = materials::tables().wood("Sitka spruce");
  Claims claims("Swelling of spruce by the handbook", "Maas and Wittel, CC BY 4.0");
  const auto strain = materials::swelling_strain(wood, 0.0183, 0.2245);
  claims.check("T, 5 to 95 % humidity", 0.06775, strain[2], 0.05 * 0.0708, 0.15 * 0.206);
  claims.check("R, 5 to 95 % humidity", 0.03567, strain[1], 0.05 * 0.0374, 0.11 * 0.206);
  claims.expect_misses(2);
}

// The handbook's curve and its two branches against the moisture contents of the same rods. Stated:
// 1 % of moisture, which is how far woods differ by the handbook. The branches come from the same
// authors' fits to other specimens, which lie up to 2 % below these rods. Claimed: 2 %.
TEST(SorptionOfSpruce, BranchesAgainstRodsGoingUpAndDown)
{
  struct Point
  {
    double humidity, percent;
  };
  Claims claims("Moisture content of spruce at 20 degC, %", "Maas and Wittel, CC BY 4.0");
  const auto compare = [&](const char *way, materials::SorptionBranch branch,
                           std::initializer_list<Point> points) {
    for (const Point &p : points)
      claims.check(std::string(way) + ", " + std::to_string(int(100 * p.humidity + 0.5)) + " %",
                   p.percent, 100 * materials::equilibrium_moisture(kelvin(20), p.humidity, branch),
                   1, 2);
  };
  compare("taking up", materials::SorptionBranch::adsorption,
          {{0.05, 1.83},
           {0.23, 5.43},
           {0.35, 6.68},
           {0.50, 9.85},
           {0.65, 11.16},
           {0.79, 14.63},
           {0.85, 16.65},
           {0.95, 22.45}});
  compare("drying", materials::SorptionBranch::desorption,
          {{0.65, 14.34}, {0.50, 11.23}, {0.35, 8.10}, {0.05, 1.57}});
  claims.expect_misses(5);
}
// Moduli at four humidities against those at 65 %. The exponents of the table (change of each
// modulus for that of E_L) come from the two ends of these rows, E_L itself from the handbook's
// equation with a green value through them: this shows how good one power law is in between.
// Stated: 10 %.
TEST(ModuliOfSpruce, FollowHumidityInEveryDirection)
{
  struct Row
  {
    const char *name;
    unsigned place;    // in the normal block, or 6 + shear
    double modulus[4]; // MPa at 35, 65, 85, 95 % humidity
  };
  const Row rows[] = {
      {"E_L", 0, {14260, 12920, 12390, 11750}}, {"E_R", 1, {1248, 1107, 917, 758}},
      {"E_T", 2, {719, 651, 618, 496}},         {"G_RT", 6, {54.7, 53.2, 45.5, 46.4}},
      {"G_LT", 7, {1623, 1544, 1248, 1055}},    {"G_LR", 8, {1433, 1312, 1152, 991}}};
  const double humidity[] = {0.35, 0.65, 0.85, 0.95};
  const materials::WoodLaw law(materials::tables().wood("Norway spruce"));
  const auto modulus = [&](unsigned place, double h) {
    const auto s = law.elastic(kelvin(20), materials::equilibrium_moisture(kelvin(20), h));
    return 1 / (place < 6 ? s.normal[place] : s.shear[place - 6]);
  };
  Claims claims("Modulus of spruce against that at 65 % humidity", "Maas and Wittel, CC BY 4.0");
  for (const Row &row : rows)
    for (const unsigned n : {0U, 2U, 3U})
      claims.check(std::string(row.name) + " at " + std::to_string(int(100 * humidity[n] + 0.5)) +
                       " %",
                   row.modulus[n] / row.modulus[1],
                   modulus(row.place, humidity[n]) / modulus(row.place, 0.65), 0.10, 0.15);
  claims.expect_misses(0);
}
} // namespace overbend::tests
