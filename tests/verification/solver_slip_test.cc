// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/report.h"
#include "tests/verification/beam_model.h"

#include <gtest/gtest.h>

#include <cmath>

// Histories of a two-layer beam whose glue flows when hot and is a glass when cold, against the
// closed form of complete slip: bow after release = q b rho + c (1 - rho), with b the bow before,
// q its share in the wood, c the bow in the clamp, rho = (EI of the layers)/(EI bonded).
namespace overbend::tests
{
namespace
{
constexpr double cold = 293.15, hot = 343.15; // K; hot: complete slip in minutes
constexpr double hour = 3600;
const char *source = "complete slip, beam theory";

// Shear modulus of the wood; beam theory leaves its shear out.
constexpr double real_shear = 1.4e9, no_shear_strain = 1e12;

// Board 6 mm, shaft 16 mm; elastic wood, with one creep element so slow that it never moves: a
// place to keep a set of the wood.
Beam make_beam(const materials::Glue &glue = thermoplastic_glue(), double shear = real_shear)
{
  mesh::LayeredBeam shape;
  shape.length = 0.46;
  shape.cells_along = 30;
  shape.end_cell = 0.003;
  return {shape,
          {with_chain(elastic(12.65e9, 1e9, shear), {1e30}, {1e-30}, 0.5),
           with_chain(elastic(13.86e9, 1e9, shear), {1e30}, {1e-30}, 0.5), glue, 1e-4}};
}

double bow(const Beam &beam, const TimeRun &run)
{
  return beam.bow(run.state.displacement);
}

void heat_and_cool(TimeRun &run)
{
  run.steps(hot, 600, 25);
  run.steps(hot, 2 * hour, 10);
  run.steps(cold, 600, 25);
}

// Mean slip of the board against the shaft along x over the nodes at x.
double slip_at(const Beam &beam, const TimeRun &run, double x)
{
  double sum = 0;
  unsigned n = 0;
  for (std::size_t g = 0; g < beam.model.glue_point.size(); ++g)
    if (std::abs(beam.model.space.position[beam.model.glue_point[g].upper][0] - x) < 1e-7) {
      sum += run.state.glue[g].slip[0];
      ++n;
    }
  return sum / n;
}

// Wood that has crept to a curvature while the beam was one piece.
void set_curvature(const Beam &beam, solver::MechanicsState &state, double curvature)
{
  std::vector<double> height;
  for (const auto &p : beam.model.space.position)
    height.push_back(p[2]);
  const auto z = solver::at_points(beam.model.space, height);
  for (std::size_t p = 0; p < z.size(); ++p)
    state.wood[p].irrecoverable[0][0] = -curvature * z[p];
}
} // namespace

namespace
{
// Pressed down cold in the middle, heated until the line slips, cooled, let go.
struct Pressed
{
  double force_share;    // force of the clamp slipped over bonded
  double clamped, slip;  // in the clamp, cold again
  double released, kept; // bow at release; slip after it
  double after_a_month;  // bow
};

Pressed press_heat_release(const Beam &beam)
{
  Pressed p{};
  TimeRun run(beam);
  run.springs.push_back(beam.press(3e-3));
  run.step(cold, 60);
  const double force = solver::force(run.springs.back(), run.state.displacement);
  heat_and_cool(run);
  p.clamped = bow(beam, run);
  p.force_share = solver::force(run.springs.back(), run.state.displacement) / force;
  p.slip = slip_at(beam, run, 0);
  run.springs.pop_back();
  run.step(cold, 1);
  p.released = bow(beam, run);
  p.kept = slip_at(beam, run, 0);
  run.steps(cold, 30 * 24 * hour, 12);
  p.after_a_month = bow(beam, run);
  return p;
}

void check(const std::string &what, const std::string &from, double expected, double got,
           double relative)
{
  report("Complete slip, three-point clamp", what, from, expected, got, relative * expected);
  EXPECT_NEAR(got / expected, 1, relative) << what;
}
} // namespace

TEST(CompleteSlip, ClampedAndHeatedBeamRetainsOneMinusRho)
{
  const Beam beam = make_beam(thermoplastic_glue(), no_shear_strain);
  const double rho = beam.EI_layers() / beam.EI_bonded();
  const Pressed p = press_heat_release(beam);
  check("retained share 1 - rho", source, 1 - rho, p.released / p.clamped, 0.01);
  check("force slipped/bonded", source, rho, p.force_share, 0.01);
  // r times the slope at the end, 3 c/L for three points.
  const double r = (beam.shape.board_thickness + beam.shape.shaft_depth) / 2;
  check("slip at the end, mm", source, 3e3 * r * p.clamped / beam.shape.length,
        1e3 * std::abs(p.slip), 0.03);
}

// With the wood's shear: two elastic solutions on the same mesh and under the same force.
TEST(CompleteSlip, RetainedShareIsThatOfTwoElasticSolutions)
{
  const Pressed p = press_heat_release(make_beam());
  const auto compliance = [](double glue_modulus) {
    const Beam beam = make_beam(elastic_glue(glue_modulus));
    std::vector<double> load = beam.no_load();
    solver::add_times(beam.lift(beam.shape.length / 2), -1, load);
    return beam.bow(beam.solve(load));
  };
  const double share = 1 - compliance(300e6) / compliance(1);
  check("retained share, wood with shear", "two elastic solutions", share, p.released / p.clamped,
        0.005);
}

TEST(CompleteSlip, ColdGlueKeepsTheSlip)
{
  const Pressed p = press_heat_release(make_beam());
  EXPECT_GT(p.released, 0.5 * p.clamped);
  check("slip after cold release over slip in the clamp", "a glass does not flow", 1,
        p.kept / p.slip, 0.01);
  check("bow after 30 cold days over bow at release", "a glass does not flow", 1,
        p.after_a_month / p.released, 0.01);
}

// Never heated: the clamp leaves nothing.
TEST(CompleteSlip, ColdClampRetainsNothing)
{
  const Beam beam = make_beam();
  TimeRun run(beam);
  run.springs.push_back(beam.press(3e-3));
  run.step(cold, 60);
  const double clamped = bow(beam, run);
  run.steps(cold, 3 * hour, 5);
  run.springs.pop_back();
  run.step(cold, 1);
  report("Cold clamp for 3 h", "retained share", "a glass does not flow", 0,
         bow(beam, run) / clamped, 0.01);
  EXPECT_NEAR(bow(beam, run) / clamped, 0, 0.01);
}

namespace
{
// A constant moment as of strings through one hot store; the slip bow is left when it is taken off.
// Returns the elastic lift of the moment on the bonded beam.
double string_like_store(const Beam &beam, TimeRun &run)
{
  const double before = bow(beam, run);
  run.load = beam.end_moments(5);
  run.step(cold, 1);
  const double lift = bow(beam, run) - before;
  heat_and_cool(run);
  run.load = beam.no_load();
  run.step(cold, 1);
  return lift;
}
} // namespace

// However long the heat, a constant pull slips the line only to lift (1/rho - 1).
TEST(CompleteSlip, PullOfStringsHasACeiling)
{
  const Beam beam = make_beam();
  const double rho = beam.EI_layers() / beam.EI_bonded();
  TimeRun run(beam);
  const double lift = string_like_store(beam, run), once = bow(beam, run);
  report("Ceiling of slip under a constant moment", "bow left over elastic lift", source,
         1 / rho - 1, once / lift, 0.02 * (1 / rho - 1));
  EXPECT_NEAR(once / lift / (1 / rho - 1), 1, 0.02);
  string_like_store(beam, run);
  report("Ceiling of slip under a constant moment", "second hot store over the first", source, 1,
         bow(beam, run) / once, 1e-3);
  EXPECT_NEAR(bow(beam, run) / once, 1, 1e-3);
}

// A beam bowed by slip alone goes straight when warmed without load; the part in the wood stays.
TEST(CompleteSlip, WarmedFreeItMovesBackToTheShareInTheWood)
{
  const Beam beam = make_beam();
  for (const double curvature : {0., 0.02}) {
    TimeRun run(beam);
    set_curvature(beam, run.state, curvature);
    run.step(cold, 1);
    const double in_wood = bow(beam, run);
    EXPECT_NEAR(in_wood, curvature * std::pow(beam.shape.length, 2) / 8, 1e-6);
    string_like_store(beam, run);
    const double b = bow(beam, run), q = in_wood / b;
    heat_and_cool(run);
    report("Warmed free", "bow over the bow before, q = " + std::to_string(q), source, q,
           bow(beam, run) / b, 0.01);
    EXPECT_NEAR(bow(beam, run) / b, q, 0.01);
    EXPECT_LT(q, 0.8);
  }
}

// bow after release = q b rho + c (1 - rho) with a part in the wood and an overbend.
TEST(CompleteSlip, CorrectionOfABowPartlyInTheWoodFollowsTheClosedForm)
{
  const Beam beam = make_beam();
  const double rho = beam.EI_layers() / beam.EI_bonded();
  TimeRun run(beam);
  set_curvature(beam, run.state, 0.02);
  run.step(cold, 1);
  const double in_wood = bow(beam, run);
  string_like_store(beam, run);
  const double b = bow(beam, run);
  // Bent the other way by a moment at both ends until the bow in the clamp is about -1 mm.
  run.load = beam.end_moments(-7);
  run.step(cold, 1);
  heat_and_cool(run);
  const double clamped = bow(beam, run);
  run.load = beam.no_load();
  run.step(cold, 1);
  const double expected = in_wood * rho + clamped * (1 - rho);
  report("Correction of a bow partly in the wood", "bow after release, mm", source, 1e3 * expected,
         1e3 * bow(beam, run), 0.01e3 * b);
  EXPECT_NEAR(bow(beam, run), expected, 0.01 * b);
  EXPECT_LT(clamped, 0);
}
} // namespace overbend::tests
