// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/equations/direct_solver.h"

#include <cmath>
#include <vector>

// One step of C dy/dt + K y = load(t): the trapezoidal rule to t + g dt, g = 2 - sqrt 2, then the
// backward formula of second order to t + dt (TR-BDF2; Hosea & Shampine 1996, from memory). Second
// order, L-stable, both stages with the matrix C + (g/2) dt K, and an error estimate from an
// embedded third-order rule.
namespace overbend::solver::tr_bdf2
{
const double first_stage = 2 - std::sqrt(2.); // g: place of the first stage in the step
const double diagonal = first_stage / 2;      // weight of a stage's own rate
const double shared = std::sqrt(2.) / 4;      // weight of the two earlier rates in the second stage

struct Stages
{
  std::vector<double> at1, at2;            // y
  std::vector<double> rate0, rate1, rate2; // C dy/dt at the start and at both stages
};

// y += factor x.
void add(std::vector<double> &y, double factor, const std::vector<double> &x);

// load - K y.
std::vector<double> rate(const SparseMatrix &K, const std::vector<double> &load,
                         const std::vector<double> &y);

// Fills at1 and at2 from rate0, the loads at the stages and the factor of C + (g/2) dt K. In
// increments, so that what is in balance stays as it is to the last digit.
void run(const Factor &factor, const SparseMatrix &K, double dt, const std::vector<double> &now,
         const std::vector<double> &load1, const std::vector<double> &load2, Stages &stages);

struct Judgement
{
  double error = 0; // largest estimated error of the step
  double bulge = 0; // largest distance inside the step from a straight line
};

// From stages with all three rates. The estimate goes through the matrix once more: what is stiff
// has died out by itself. Throws std::runtime_error if a number is not finite.
Judgement judge(const Factor &factor, double dt, const std::vector<double> &now,
                const Stages &stages);
} // namespace overbend::solver::tr_bdf2
