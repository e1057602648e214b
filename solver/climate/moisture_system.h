// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "materials/moisture_transport.h"
#include "solver/climate/heat_bar.h"
#include "solver/equations/direct_solver.h"
#include "solver/model/model.h"

#include <map>
#include <optional>
#include <vector>

// Water in the neck, discrete in space:
//
//   C dm/dt + K(T,m) m = load,   C = rho_0 times the volume a node stands for (kg),
//   K: rho_0 D(T,m) in the cells, rho_0 S(T,m) times area at open surfaces, glue lines
//
// One unknown a node, the moisture content m (kg/kg). All woods share one sorption curve
// (materials/sorption.h), so at equal temperature equal m is equal humidity: m is the potential,
// also across a line between two woods, and a glue line carries a flow by the difference of m. What
// a difference of temperature alone drives through wood is left out. C is lumped (positive at every
// node, its sum is the mass of dry wood), and what K carries inside sums to zero: water is kept to
// round-off. D is that of the middle of a cell. Pieces without dry_density (a bar) take no water.
namespace overbend::solver
{
// How a face is covered. A face that is not named lets no water through.
struct Coating
{
  const materials::Finish *finish = nullptr;
  materials::FilmCondition condition = materials::FilmCondition::sound;
  double cloth = 0; // of a wrap around it, s/m
};

struct MoistureSurroundings
{
  std::map<unsigned, Coating> coating; // by face id
  double glue_conductance = 0;         // across a line, kg/(m^2 s) for a difference of m of 1
  std::optional<BarOnBoard> cover;     // what lies under it lets no water through
};

// A node of an open face, or its part of one face.
struct SurfacePoint
{
  unsigned node;
  double strength; // rho_0 times area, kg/m
  Coating coating;
};

class MoistureSystem
{
public:
  MoistureSystem(const Model &model, const MoistureSurroundings &surroundings);

  unsigned size() const { return capacity.size(); }
  const std::vector<SurfacePoint> &surface() const { return points; }

  // Fills K for nodal temperatures (K) and moisture contents; vapour: at each surface point,
  // saturation pressure over that at 20 degC, which its emission goes with.
  void set_coefficients(const std::vector<double> &temperature, const std::vector<double> &moisture,
                        const std::vector<double> &vapour);

  std::vector<double> capacity; // kg, one a node; 0 where there is no wood
  SparseMatrix diffusion;       // kg/s

  // kg/s into the nodes from the moisture contents that the surface points would rest at.
  std::vector<double> load(const std::vector<double> &rest) const;
  // kg/s through all surfaces into the wood.
  double inflow(const std::vector<double> &rest, const std::vector<double> &moisture) const;
  // Water in the neck, kg.
  double water(const std::vector<double> &moisture) const;

private:
  void make_pattern();
  void make_cells();
  void make_surface(const MoistureSurroundings &surroundings);
  void connect(unsigned a, unsigned b, double conductance);

  const Model &model;
  double glue_conductance;
  std::vector<SurfacePoint> points;
  std::vector<double> conductance; // kg/s, one a surface point
  // Forms of the cells that hold water, and where their entries lie in the matrix.
  std::vector<unsigned> wet_cell;
  std::vector<double> spread, along;
  std::vector<unsigned> entry;
};
} // namespace overbend::solver
