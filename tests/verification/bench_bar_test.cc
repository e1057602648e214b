// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/read/read_case.h"
#include "solver/model/interfaces.h"
#include "tests/report.h"
#include "tests/verification/plan_neck.h"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>

// A bar glued into the shaft for good, in a whole neck of one section: the transformed section.
namespace overbend::tests
{
namespace
{
constexpr double half_width = 0.025, shaft_depth = 0.016, exponent = 2.2, board = 0.006;
constexpr double bar_width = 0.006, bar_depth = 0.0105;
constexpr double softer = 9e9, harder = 24e9; // moduli of shaft and board, Pa

// Woods that bend without shear and Poisson's effect; bars that grow along themselves alone.
materials::Tables plain_tables()
{
  materials::Tables tables = elastic_tables();
  for (materials::Wood &wood : tables.woods) {
    wood.E_L = wood.E_R = wood.E_T = wood.name == "Indian rosewood" ? harder : softer;
    wood.G_LR = wood.G_LT = wood.G_RT = 1e13;
    wood.nu_LR = wood.nu_LT = wood.nu_RT = 0;
  }
  for (materials::Bar &bar : tables.bars) {
    bar.poisson = bar.expansion_across = 0;
    bar.shear_modulus = 1e13;
  }
  return tables;
}

cases::Case neck_with(const char *bar)
{
  cases::Case c = cases::parse_case(R"(preset = "electric"
[board]
slot_depth = "0 mm"
[rod]
kind = "bonded bar"
diameter = "0 mm"
force = "0 N"
fillet_depth = "0 mm"
[target]
rod = "slack"
[found]
bow = "0.6 mm"
[numerics]
resolution = 0.5
)",
                                    "bar.toml");
  cases::NeckShape &neck = c.neck;
  neck.nut_width = neck.width_at_12 = 2 * half_width;
  neck.depth_at_1 = neck.depth_at_12 = shaft_depth + board;
  neck.back_exponent = exponent;
  neck.board_thickness = board;
  neck.board_radius = std::numeric_limits<double>::infinity();
  neck.rod.channel_width = bar_width;
  neck.rod.channel_depth = bar_depth;
  const std::string material = bar;
  neck.rod.bar = material == "steel"    ? cases::BarMaterial::steel
                 : material == "carbon" ? cases::BarMaterial::carbon
                                        : cases::BarMaterial::aluminium;
  return c;
}

// Young's modulus along of a piece, as dry as the neck is: the table's is that at 12 % moisture.
double modulus(const PlanNeck &neck, mesh::Piece piece)
{
  const solver::PieceModel &wood = neck.work.model.piece[unsigned(piece)];
  return 1 / wood.law->elastic(materials::reference_temperature, wood.moisture).normal[0];
}

// Stiffness and balance of the section, by summing thin strips: EI about the common neutral axis,
// and what free growth of the bar alone bends it by.
struct TransformedSection
{
  double EI = 0, bend_by_growth = 0; // N m^2; 1/m for a strain of 1
};
TransformedSection section_with(const PlanNeck &neck, double bar_modulus)
{
  const double shaft_modulus = modulus(neck, mesh::Piece::shaft),
               board_modulus = modulus(neck, mesh::Piece::board);
  constexpr unsigned strips = 20000;
  double EA = 0, ES = 0, EII = 0, bar_EA = 0, bar_ES = 0;
  for (unsigned k = 0; k < strips; ++k) {
    const double dz = (shaft_depth + board) / strips, z = -shaft_depth + (k + 0.5) * dz;
    const double width =
        z > 0 ? 2 * half_width
              : 2 * half_width * std::pow(1 - std::pow(-z / shaft_depth, exponent), 1 / exponent);
    const double bar = z < 0 && z > -bar_depth ? bar_width : 0;
    const double E = z > 0 ? board_modulus : shaft_modulus;
    const double per_length = (E * (width - bar) + bar_modulus * bar) * dz;
    EA += per_length;
    ES += per_length * z;
    EII += per_length * z * z;
    bar_EA += bar_modulus * bar * dz;
    bar_ES += bar_modulus * bar * dz * z;
  }
  const double axis = ES / EA;
  TransformedSection s;
  s.EI = EII - EA * axis * axis;
  s.bend_by_growth = -(bar_ES - bar_EA * axis) / s.EI;
  return s;
}

// Curvature of the board's centre line, far from nut and heel, 1/m; forward positive.
double curvature(const PlanNeck &neck, const std::vector<double> &displacement)
{
  const auto line = neck.work.lines.shape(displacement).centre;
  const unsigned a = 2, b = 5, c = 9;
  const double first = (line.z[b] - line.z[a]) / (line.x[b] - line.x[a]),
               second = (line.z[c] - line.z[b]) / (line.x[c] - line.x[b]);
  return 2 * (second - first) / (line.x[c] - line.x[a]);
}

const char *const source = "transformed section (bending theory)";
} // namespace

TEST(BondedBar, BendsAsTheTransformedSectionAboutTheCommonNeutralAxis)
{
  for (const char *bar : {"steel", "carbon"}) {
    PlanNeck neck(neck_with(bar), plain_tables());
    neck.make_glass(solver::board_line);
    std::vector<unsigned> nodes;
    for (const auto &n :
         solver::face_nodes(neck.work.model.space, unsigned(mesh::Face::headstock_face)))
      nodes.push_back(n.node);
    std::vector<double> load = neck.no_load();
    solver::add_times(solver::spread_moment(neck.work.model.space, nodes, {0, 1, 0}), 1., load);
    const double expected = section_with(neck, neck.tables.bar(bar).modulus).EI,
                 got = 1 / curvature(neck, neck.under(load));
    report("Neck with a bonded bar of " + std::string(bar), "bending stiffness, N m^2", source,
           expected, got, 0.01 * expected);
    EXPECT_NEAR(got / expected, 1, 0.01);
    // A channel of wood would be much softer.
    EXPECT_GT(expected / section_with(neck, modulus(neck, mesh::Piece::shaft)).EI, 1.05);
  }
}

TEST(BondedBar, BowsTheNeckInWarmthAsABimetal)
{
  constexpr double warmth = 20;
  for (const char *bar : {"steel", "aluminium"}) {
    PlanNeck neck(neck_with(bar), plain_tables());
    neck.make_glass(solver::board_line);
    const solver::MechanicsState start = solver::unstressed(neck.work.model);
    const double T = materials::reference_temperature;
    neck.work.mechanics.begin(start, std::vector<double>(neck.work.model.space.n_nodes, T),
                              std::vector<double>(neck.work.model.space.n_nodes, T + warmth), 0);
    solver::BenchSetup bare;
    bare.nut = false;
    std::vector<double> u = start.displacement;
    neck.work.mechanics.equilibrate(neck.work.bench.springs(bare, {}, 0), neck.no_load(), u);
    const materials::Bar &entry = neck.tables.bar(bar);
    const double expected =
        section_with(neck, entry.modulus).bend_by_growth * entry.expansion * warmth;
    const double got = curvature(neck, u);
    report("Neck with a bonded bar of " + std::string(bar) + ", 20 K warmer", "curvature, 1/m",
           "transformed section (bending theory)", expected, got, 0.02 * std::abs(expected));
    EXPECT_GT(expected, 1e-5);
    EXPECT_NEAR(got / expected, 1, 0.02);
  }
}
} // namespace overbend::tests
