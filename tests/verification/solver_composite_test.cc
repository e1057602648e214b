// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/report.h"
#include "tests/verification/beam_model.h"

#include <gtest/gtest.h>

#include <cmath>

// Partial composite beams against the closed form of Newmark, Siess & Viest 1951 and Granholm 1949
// (from memory of these).
namespace overbend::tests
{
namespace
{
constexpr double length = 0.46, width = 0.05, t1 = 0.006, t2 = 0.016;
constexpr double E1 = 12.65e9, E2 = 13.86e9;

struct ClosedForm
{
  double EI0, EI, alpha2;
  // wood_shear_modulus > 0 puts the wood's own shear in series with the glue (t/(3G) each layer).
  ClosedForm(double glue_modulus, double glue_thickness, double wood_shear_modulus)
  {
    const double EA1 = E1 * width * t1, EA2 = E2 * width * t2;
    const double EA = 1 / (1 / EA1 + 1 / EA2), r = (t1 + t2) / 2;
    EI0 = width * (E1 * std::pow(t1, 3) + E2 * std::pow(t2, 3)) / 12;
    EI = EI0 + r * r * EA;
    double flexibility = glue_thickness / glue_modulus;
    if (wood_shear_modulus > 0)
      flexibility += (t1 + t2) / 3 / wood_shear_modulus;
    alpha2 = width / flexibility * (1 / EA + r * r / EI0);
  }
  // Sag in the middle of a beam with free ends under a constant moment of 1 N m.
  double sag() const
  {
    const double half = std::sqrt(alpha2) * length / 2;
    return length * length / 8 / EI + (1 / EI0 - 1 / EI) * (1 - 1 / std::cosh(half)) / alpha2;
  }
};

// Sag of the middle against the ends under a moment of 1 N m at each end.
double computed_sag(double glue_modulus, double wood_shear)
{
  mesh::LayeredBeam beam;
  beam.length = length;
  beam.width = width;
  beam.board_thickness = t1;
  beam.shaft_depth = t2;
  beam.cells_along = 40;
  beam.end_cell = 0.003;
  const mesh::NeckMesh mesh = mesh::make_layered_beam(beam);
  BeamMaterials materials{elastic(E1, 1e9, wood_shear), elastic(E2, 1e9, wood_shear),
                          elastic_glue(glue_modulus)};
  const solver::Model model = make_model(mesh, materials);

  // Each layer bends about its own middle: its share of the moment at free ends is EI_i/EI0.
  const auto bending = [&](const solver::Vec3 &p, double sign) -> solver::Vec3 {
    const double EI0 = width * (E1 * std::pow(t1, 3) + E2 * std::pow(t2, 3)) / 12;
    const bool board = p[2] > 1e-9;
    const double z = board ? p[2] - t1 / 2 : p[2] + t2 / 2;
    return {sign * (board ? E1 : E2) * z / EI0, 0, 0};
  };
  std::vector<double> load(model.n_unknowns(), 0.);
  const auto add = [&](mesh::Face face, double sign, bool board) {
    const auto part = traction_load(model, face, [&](const solver::Vec3 &p) {
      solver::Vec3 q = p;
      if (!board && q[2] > -1e-9)
        q[2] = 0;  // the shaft's node in the glue plane
      if (board && q[2] < 1e-9)
        q[2] = 2e-9;
      return bending(q, sign);
    });
    for (std::size_t i = 0; i < load.size(); ++i)
      load[i] += part[i];
  };
  add(mesh::Face::board_nut_end, 1, true);
  add(mesh::Face::headstock_other, 1, false);
  add(mesh::Face::board_body_end, -1, true);
  add(mesh::Face::body, -1, false);

  const auto at = [&](double x, double y, double z) {
    return nodes_where(model.space, [&](const solver::Vec3 &p) {
      return std::hypot(p[0] - x, p[1] - y, p[2] - z) < 1e-7;
    });
  };
  const auto corner = at(0, -width / 2, -t2), corner2 = at(0, width / 2, -t2);
  const auto far = at(length, -width / 2, -t2), middle = at(length / 2, 0, -t2);
  solver::Mechanics mechanics(model);
  mechanics.hold({{3 * corner.at(0), 0}, {3 * corner.at(0) + 1, 0}, {3 * corner.at(0) + 2, 0},
                  {3 * corner2.at(0) + 2, 0}, {3 * corner2.at(0), 0}, {3 * far.at(0) + 2, 0}});
  const solver::MechanicsState start = solver::unstressed(model);
  const std::vector<double> T(model.space.n_nodes, 293.15);
  mechanics.begin(start, T, T, 0);
  std::vector<double> u(model.n_unknowns(), 0.);
  mechanics.equilibrate({}, load, u);
  std::printf("iterations %u\n", mechanics.counts().iterations);
  return std::abs(u[3 * middle.at(0) + 2]);
}
}  // namespace

TEST(PartialComposite, ConstantMomentFollowsTheShearLagCurve)
{
  for (const double G : {1e6, 0.3e6, 0.1e6, 0.03e6, 0.01e6}) {
    const double wood_shear = 1.4e9;
    const ClosedForm form(G, 0.1e-3, wood_shear);
    const double sag = computed_sag(G, wood_shear);
    const double rigid = length * length / 8 / form.EI;
    const double retained = 1 - rigid / sag, expected = 1 - rigid / form.sag();
    report("Partial composite, constant moment", "retained share at G = " + std::to_string(G) + " Pa",
           "Newmark, Siess & Viest 1951 (from memory), wood shear in series", expected, retained, 0.01);
    EXPECT_NEAR(retained, expected, 0.01);
  }
}
}  // namespace overbend::tests
