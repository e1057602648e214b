// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

// Heat across a straight neck that is alike all along, by plain finite differences: a model of its
// own, which shares nothing with the program but the numbers that it is given.
namespace overbend::tests
{
// Half of a rectangular section, y from 0 to width/2, z from -shaft to board; T in degC. A bar lies
// on the top from y = 0 to bar_width/2.
struct SectionByDifferences
{
  double width = 50e-3, board = 6e-3, shaft = 16e-3, bar_width = 40e-3; // m
  double k_board = 0.200, k_shaft = 0.161, glue = 2000;                 // W/(m K), W/(m^2 K)
  double contact = 60;                                                  // W/(m^2 K)
  double radius = 0;                                                    // m; 0: the bar touches
  double film = 4.5, emissivity = 0.9, air = 21;                        // bare faces
  double wrap = 0; // W/(m^2 K), around all that the bar does not cover; 0: none

  // Temperatures of all cells (half a millimetre each way), y fastest, for a bar at a temperature.
  std::vector<double> solve(double bar) const;
  // W for a metre of neck from a bar at a temperature (both halves).
  double heat_from_bar(const std::vector<double> &T, double bar) const;

  // On the glue line: at the cell next to the centre line, at that next to the edge, mean.
  double line_centre(const std::vector<double> &T) const;
  double line_edge(const std::vector<double> &T) const;
  double line_mean(const std::vector<double> &T) const;
  // y of the cells that line_centre and line_edge are read at, m.
  double y_centre() const { return h / 2; }
  double y_edge() const { return width / 2 - h / 2; }

private:
  static constexpr double h = 0.5e-3;
  unsigned ny() const { return unsigned(width / 2 / h + 0.5); }
  unsigned nz() const { return unsigned((board + shaft) / h + 0.5); }
  unsigned below() const { return unsigned(shaft / h + 0.5); } // rows of the shaft
  double k(unsigned j) const { return j < below() ? k_shaft : k_board; }
  double contact_at(double y) const;
  double upwards(unsigned j) const; // W/(m^2 K) from row j to row j + 1
  double outside(double surface, bool wrapped) const;
  double line_at(const std::vector<double> &T, unsigned i) const;
};
} // namespace overbend::tests
