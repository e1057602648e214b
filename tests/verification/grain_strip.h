// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cases/case/case.h"
#include "tests/verification/beam_model.h"

#include <functional>

// Strips cut off-axis, and the closed forms for them.
//
// Axes of a neck; the origin of z below is the middle of the strip. The grain lies at an angle
// theta to x, L = (cos, sin, 0) for run-out across. Unless said otherwise the wood is quarter-sawn:
// R lies in the plane of the strip. Compliances turn as (Jones, Mechanics of Composite Materials,
// 1975, section 2.6 [M]; also Lekhnitskii 1963 [M]), with 1 = L and 2 the in-plane direction
// across:
//
//   S_xx = S11 c^4 + (2 S12 + S66) s^2 c^2 + S22 s^4
//   S_xs = (2 S11 - 2 S12 - S66) s c^3 - (2 S22 - 2 S12 - S66) s^3 c
//
// A bar under pull sigma shears by gamma_xy = S_xs sigma. Under a moment that makes the stress
// sigma_xx = a z, the strains eps_i = S_i1 a z are linear in the place and so compatible; the only
// displacement that gives them, up to rigid motion, is
//
//   u = S_xx a x z + S_xs a y z/2,  v = S_xy a y z + S_xs a x z/2,
//   w = -S_xx a x^2/2 - S_xy a y^2/2 + S_zx a z^2/2 - S_xs a x y/2.
//
// So sections turn about x by -S_xs a x/2: the bar twists as it bows. This is exact.
namespace overbend::tests
{
// Elastic maple with thermal expansion (L, R, T), 1/K.
materials::Wood warm_maple();

struct OffAxis
{
  double xx = 0, xs = 0; // 1/Pa
};
// In the L-R plane (quarter-sawn) or the L-T plane (flat-sawn).
OffAxis off_axis(const materials::Wood &wood, double angle, bool flat_sawn = false);

// Twist a length (rad/m) of two layers of equal thickness with their grain at +angle (upper) and
// -angle, quarter-sawn, bonded, free, warmed: lamination theory (Jones 1975, chapter 4 [M]). With
// the reduced stiffness Q of a layer, N = A e + B k - N_T = 0 and M = B e + D k - M_T = 0 are
// solved for the strains e of the middle plane and the curvatures k; k_xy is twice the twist a
// length, and counts as w_xy = -k_xy/2.
double angle_ply_twist(const materials::Wood &wood, double angle, double layer, double warming);
// The same for any free strain along and across the grain, and for a pull along the strip, N_x, in
// N for each m of width: N = N_x there, M = 0. Pull twists through the coupling B_16, which the
// layers of opposite angle have. Stiffness as at 12 % and 20 degC.
struct PlyLoad
{
  double free_along = 0, free_across = 0; // -
  double pull = 0;                        // N/m
};
double angle_ply_twist(const materials::Wood &wood, double angle, double layer,
                       const PlyLoad &asked);

// A strip of one piece, and of two layers of the same thickness without a glue line.
Beam strip(double length, double width, double thickness, unsigned cells_along,
           unsigned cells_across);
Beam two_layers(double length, double width, double thickness, unsigned cells_along,
                unsigned cells_across);

// Gives each cell the frame of the grain at its middle, a function of piece and x.
void set_grain(Beam &beam, const std::function<cases::Grain(mesh::Piece, double)> &grain);
cases::Grain run_out_across(double angle, bool flat_sawn = false);

// Displacement after warming by `warming` K under nodal loads, free but for rigid motion.
std::vector<double> free_displacement(const Beam &beam, double warming,
                                      const std::vector<double> &load);
// The same after drying from one moisture content (that it was built at) to another, kg/kg, with
// swelling numbers for all pieces: green to oven-dry across, bilinear along.
materials::Wood swelling_maple();
std::vector<double> dried_displacement(Beam &beam, double built, double moisture);
// Loads of a traction sigma_xx(y, z) on both ends; z counts from the middle of the strip.
std::vector<double> end_load(const Beam &beam,
                             const std::function<double(double y, double z)> &stress);

// Turn of the section at x about the long axis, treble up positive, rad: of its middle row.
double turn(const Beam &beam, const std::vector<double> &displacement, double x);
// Mean shear strain du/dy + dv/dx of the middle plane between two sections.
double shear(const Beam &beam, const std::vector<double> &displacement, double x0, double x1);
} // namespace overbend::tests
