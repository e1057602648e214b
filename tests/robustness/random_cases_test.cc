// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/declare/presets.h"
#include "cases/read/read_case.h"
#include "cases/text/error.h"
#include "mesh/shape_error.h"
#include "solver/results/readings_table.h"
#include "tests/verification/plan_neck.h"

#include <gtest/gtest.h>

#include <cmath>
#include <random>
#include <sstream>

// Cases drawn over wide ranges, through reading, mesh and bench to one cold clamp: each ends in
// finite readings or is refused in words. Nothing else may come out.
namespace overbend::tests
{
namespace
{
// The raw generator is used, as the distributions of the library differ between systems.
class Draw
{
public:
  explicit Draw(unsigned seed) : engine(seed) {}
  double between(double a, double b) { return a + (b - a) * engine() / 4294967295.0; }
  bool chance(double p) { return between(0, 1) < p; }
  template <typename T>
  const T &of(const std::vector<T> &all)
  {
    return all[engine() % all.size()];
  }
  std::string mm(double a, double b) { return "\"" + std::to_string(between(a, b)) + " mm\"\n"; }

private:
  std::mt19937 engine;
};

std::string quoted(const std::string &text)
{
  return "\"" + text + "\"\n";
}

std::string neck_text(Draw &draw)
{
  std::ostringstream out;
  out << "[neck]\n";
  if (draw.chance(0.4))
    out << "scale_length = " << draw.mm(340, 900);
  if (draw.chance(0.4))
    out << "nut_width = " << draw.mm(28, 60) << "width_at_12 = " << draw.mm(40, 75);
  if (draw.chance(0.5))
    out << "depth_at_1 = " << draw.mm(16, 26) << "depth_at_12 = " << draw.mm(18, 30);
  if (draw.chance(0.4))
    out << "back_exponent = " << draw.between(1.6, 6) << "\n";
  out << "[shaft]\nwood = " << quoted(draw.of(materials::tables().woods).name)
      << "grain = " << quoted(draw.of<std::string>({"flat", "rift", "quarter", "37 deg"}))
      << "run_out_across = \"" << draw.between(-20, 20) << " %\"\nrun_out_depth = \""
      << draw.between(-20, 20) << " %\"\n";
  out << "[board]\nwood = " << quoted(draw.of(materials::tables().woods).name)
      << "thickness = " << draw.mm(2.5, 9) << "beyond_last_fret = " << draw.mm(2, 40)
      << "tongue_glued = " << (draw.chance(0.5) ? "true\n" : "false\n")
      << "radius = " << (draw.chance(0.3) ? quoted("flat") : draw.mm(150, 900));
  if (draw.chance(0.4)) {
    const auto kind = draw.of<std::string>({"flat", "tilted", "scarf"});
    out << "[headstock]\nkind = " << quoted(kind) << "angle = \""
        << (kind == "flat" ? 0 : draw.between(6, 22))
        << " deg\"\nface_step = " << (kind == "flat" ? draw.mm(0, 6) : quoted("0 mm"));
    if (kind == "scarf" && draw.chance(0.5))
      out << "scarf_start = " << draw.mm(0, 30);
  }
  return out.str();
}

std::string bench_text(Draw &draw)
{
  std::ostringstream out;
  out << "[glue]\nboard = "
      << quoted(draw.chance(0.3) ? "unknown" : draw.of(materials::tables().glues).name)
      << "board_thickness = " << draw.mm(0.02, 1);
  if (draw.chance(0.4))
    out << "[tuners]\nlayout = "
        << quoted(draw.of<std::string>({"both sides", "bass line", "treble line"}))
        << "across = " << draw.mm(0, 70);
  out << "[found]\nbow = " << draw.mm(-2, 4) << "twist = \"" << draw.between(-2, 2)
      << " deg\"\n[room]\ntemperature = \"" << draw.between(5, 40) << " degC\"\nhumidity = \""
      << draw.between(10, 90) << " %\"\n";
  out << "[bench]\nbody = " << quoted(draw.of<std::string>({"rigid", "pads"}))
      << "pad_stiffness = \"" << std::pow(10, draw.between(2, 6))
      << " N m/rad\"\npad_distance = " << draw.mm(0, 400)
      << "cradle = " << quoted("fret " + std::to_string(1 + int(draw.between(0, 10))))
      << "cradle_width = " << draw.mm(5, 120) << "cord_stiffness = \""
      << std::pow(10, draw.between(0.2, 2.9)) << " N/mm\"\nnut_stiffness = \""
      << (draw.chance(0.2) ? 0 : std::pow(10, draw.between(2, 5.9)))
      << " N/mm\"\n[numerics]\nresolution = 0.5\n";
  return out.str();
}

std::string case_text(unsigned seed)
{
  Draw draw(seed);
  return "preset = " + quoted(draw.of(cases::presets()).name) + neck_text(draw) + bench_text(draw);
}

// One cold clamp, cords and cradle on, with or without strings; empty if every number is finite.
std::string clamp_cold(PlanNeck &neck, bool strings)
{
  solver::BenchSetup setup;
  setup.cords = setup.cradle = true;
  setup.strings = strings ? &neck.work.planned_strings : nullptr;
  solver::BenchOffsets offsets;
  offsets.take_up = {3e-3, 2e-3};
  const solver::MechanicsState start = neck.unstressed().state;
  const std::vector<double> room(neck.work.model.space.n_nodes, neck.c.room.temperature);
  const double warmth = neck.work.bench.rod_temperature(room) - materials::reference_temperature;
  neck.work.mechanics.begin(start, room, room, 0);
  std::vector<double> u = start.displacement;
  const auto springs = neck.work.bench.springs(setup, offsets, warmth);
  neck.work.mechanics.equilibrate(springs, neck.work.bench.load(setup), u);
  const auto r = solver::read(neck.work.lines, u);
  const auto f = neck.work.bench.forces(springs, u);
  for (const double value :
       {r.bow_bass, r.bow, r.bow_treble, r.twist, f.cord[0], f.cord[1], f.cradle, f.nut, f.tip})
    if (!std::isfinite(value))
      return "a reading is not finite";
  if (f.cord[0] < 0 || f.cord[1] < 0 || f.cradle < 0 || f.nut < 0)
    return "a cord or a bearing has the wrong sign";
  if (std::abs(r.bow) > 0.1)
    return "a bow of " + std::to_string(r.bow) + " m";
  const auto shape = neck.work.lines.shape(u);
  for (const auto *line : {&shape.bass, &shape.centre, &shape.treble})
    for (const double z : line->z)
      if (!std::isfinite(z))
        return "a height is not finite";
  return "";
}
} // namespace

TEST(RandomCases, EndInFiniteReadingsOrAreRefusedInWords)
{
  constexpr unsigned wanted = 30, most = 200;
  unsigned clamped = 0, refused = 0;
  for (unsigned seed = 1; seed <= most && clamped < wanted; ++seed) {
    const std::string text = case_text(seed);
    SCOPED_TRACE("seed " + std::to_string(seed) + "\n" + text);
    try {
      PlanNeck neck(cases::parse_case(text, "random.toml"));
      EXPECT_EQ(clamp_cold(neck, seed % 2 == 0), "");
      ++clamped;
    } catch (const cases::CaseError &error) {
      ++refused;
      EXPECT_NE(std::string(error.what()).find("random.toml"), std::string::npos) << error.what();
      EXPECT_NE(std::string(error.what()).find("; "), std::string::npos) << error.what();
    } catch (const mesh::ShapeError &error) {
      ++refused;
      EXPECT_FALSE(error.problem.empty());
      EXPECT_FALSE(error.remedy.empty());
    } catch (const std::exception &error) {
      ADD_FAILURE() << "neither readings nor a refusal: " << error.what();
    }
  }
  std::printf("%u clamped, %u refused in words\n", clamped, refused);
  EXPECT_EQ(clamped, wanted);
  EXPECT_GT(refused, 0u);
}
} // namespace overbend::tests
