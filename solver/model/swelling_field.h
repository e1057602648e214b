// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cases/case/case.h"
#include "solver/model/space.h"

#include <array>
#include <cstdint>
#include <vector>

// Swelling along the grain that differs from place to place in one blank. Between blanks of one
// species it scatters by a factor of ten and more, and what it does within a blank bends and twists
// the neck when the humidity changes; the table's mean alone would keep even wood straight.
namespace overbend::solver
{
// A random factor about 1 as a function of the place, the same for any mesh:
//
//   f = exp(s g - s^2/2),  s^2 = ln(1 + variation^2)
//   g = N^(-1/2) sum_j a_j cos(k_j . x) + b_j sin(k_j . x)
//
// with a_j, b_j standard normal and k_j normal with the standard deviations sqrt(2)/l_i. Over all
// seeds f has mean 1, the given standard deviation, and never falls to 0; g is Gaussian with
// the correlation exp(-sum_i (d_i/l_i)^2). A sum of waves of random length (the spectral method;
// Shinozuka and Deodatis 1991 [M]); 256 waves keep the correlation within one blank to about
// 1/sqrt(512). Numbers come from the 64-bit Mersenne twister, which the language fixes, through
// the transform of Box and Muller, since the library's normal distribution differs between
// compilers.
class SwellingField
{
public:
  // lengths: correlation length in each direction, m, greater than 0. Another blank under the
  // same seed is independent of the first.
  SwellingField(double variation, const std::array<double, 3> &lengths, unsigned seed,
                unsigned blank);

  double gaussian(const Vec3 &place) const; // g
  double at(const Vec3 &place) const;       // f

private:
  struct Wave
  {
    Vec3 number;
    double a, b;
  };
  std::vector<Wave> waves;
  double spread; // s
};

// The factor in each cell, at its middle; empty if the wood is even. The shaft with its fillet and
// a headstock in one piece with it are one blank, the board is another, a scarfed headstock a
// third; a bar does not swell and has 1. wood_at_middle: of StripModel; each strip of a laminated
// shaft is a blank of its own.
std::vector<double> swelling_by_cell(const Space &space, const cases::GrainScatter &scatter,
                                     bool scarf,
                                     const std::vector<std::uint8_t> &wood_at_middle = {});
} // namespace overbend::solver
