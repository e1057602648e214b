// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/model/space.h"

#include <array>
#include <vector>

// The bar that spreads the heat of the iron over the board: one-dimensional, linear elements.
//
//   rho c A dT/dt = d/dx (k A dT/dx) - h p (T - T_air) - contact b (T - T_board) + iron
//
// Across a board with a radius R a flat bar touches along the middle only; y beside it there is air
// of the height g = R - sqrt(R^2 - y^2) in series with the contact of its kind (on frets or wood):
//
//   1/contact(y) = 1/contact + 1/(k_air/g + h_rad),   k_air 0.026 W/(m K), h_rad 5 W/(m^2 K)
//
// (air at some 40 degC and radiation between dull surfaces there, handbook values from memory).
// p is what of the outline is free: top and sides, also the underside where the bar overhangs the
// board (b is then 0). The difference through the thickness of a metal bar is far below 0.1 K.
// The iron gives its heat evenly over its length; a parked one gives what its soleplate drives
// through its contact, iron_contact b (T_iron - T). A bar lifted off the board loses heat all
// round.
namespace overbend::solver
{
struct BarOnBoard
{
  double width = 0, thickness = 0;   // m
  double from = 0, to = 0;           // x of the ends, m
  double conductivity = 0;           // along, W/(m K)
  double heat_capacity = 0;          // by volume, J/(m^3 K)
  double contact = 0;                // conductance to the board where it touches, W/(m^2 K)
  double board_radius = 0;           // of the board under a flat bar, m; 0: it touches throughout
  double film = 0;                   // loss to the air, W/(m^2 K)
  double air = 0;                    // K
  double iron_from = 0, iron_to = 0; // m
  double iron_contact = 0;           // from a parked iron, W/(m^2 K); 0: it is not parked
  double iron_temperature = 0;       // K, of a parked iron's soleplate
  double sensor = 0;                 // x of the thermostat's sensor, m
  bool on_board = true;              // false: lifted off, iron away
  unsigned board_face = 0;           // id of the face it lies on
  unsigned overhang_face = 0;        // id of a face under its overhang, with packing in between
  double overhang_contact = 0;       // conductance through the packing, W/(m^2 K); 0: none
  double longest_element = 7e-3;     // m
};

// Places of the nodes of the bar.
std::vector<double> bar_nodes(const BarOnBoard &bar);

// Share of a node of the bar.
struct BarWeight
{
  unsigned node;
  double weight;
};

// A place on the bar by its two nodes (linear); beyond the ends: the end.
std::array<BarWeight, 2> bar_place(const BarOnBoard &bar, double x);

// A node of the space, or a part of it, that touches the bar.
struct BarContact
{
  unsigned node;
  double conductance; // W/K
  std::array<BarWeight, 2> on_bar;
};

// What part of a face's node (index q of the face) lies under the bar, seen along z: 0 to 1.
double covered_share(const Space &space, const BoundaryFace &face, unsigned q,
                     const BarOnBoard &bar);

// Conductance from bar to board at a distance y from the centre line, W/(m^2 K).
double contact_at(const BarOnBoard &bar, double y);

// All contacts, on the board and through the packing; empty if the bar is lifted off. Throws
// std::runtime_error if the bar lies beside the board.
std::vector<BarContact> bar_contacts(const Space &space, const BarOnBoard &bar);

// Free surface of each node of the bar, m^2.
std::vector<double> bar_free_area(const Space &space, const BarOnBoard &bar);

// Share of the iron's heat that each node of the bar gets; sum 1.
std::vector<double> iron_shares(const BarOnBoard &bar);
} // namespace overbend::solver
