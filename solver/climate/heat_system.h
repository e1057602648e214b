// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/climate/heat_bar.h"
#include "solver/equations/direct_solver.h"
#include "solver/model/model.h"

#include <functional>
#include <map>
#include <optional>
#include <vector>

// Heat conduction in the neck and a bar, discrete in space, with surroundings that do not change:
//
//   C dT/dt + K T = load(t) - radiation(T) + P unit_power
//
// One unknown a node of the space, then one a node of the bar. C and K are integrated by the Gauss
// points of the cells; exchange over faces and glue lines sits at the nodes (Gauss-Lobatto).
// Conductivity and heat capacity are constant: between 20 and 60 degC wood changes them by about
// 10 % (Wood Handbook ch. 4), less than one piece differs from the next.
namespace overbend::solver
{
constexpr double stefan_boltzmann = 5.670374e-8; // W/(m^2 K^4), defined by the SI units

// Exchange of a face with the air and with surroundings at the temperature of the air.
struct FaceFilm
{
  double conductance = 0; // W/(m^2 K): convection and whatever else is linear
  double air = 0;         // K
  double emissivity = 0;  // radiation eps sigma (T^4 - T_air^4) beside it
};

// 4 eps sigma T^3: radiation at small differences, W/(m^2 K).
double linear_radiation(double emissivity, double temperature);

struct HeatSurroundings
{
  std::map<unsigned, FaceFilm> film; // by face id; a face that is not named is insulated
  double glue = 0;                   // across glue lines, W/(m^2 K)
  double body = 0;                   // from glue points on the body (no lower side), W/(m^2 K)
  double body_temperature = 0;       // K
  std::optional<BarOnBoard> bar;
};

class HeatSystem
{
public:
  HeatSystem(const Model &model, const HeatSurroundings &surroundings);

  unsigned size() const { return capacity.size(); }
  unsigned n_nodes() const { return nodes; }

  SparseMatrix capacity, conduction; // J/K and W/K; same pattern
  std::vector<double> unit_power;    // W at each unknown for 1 W of the iron; empty without bar
  std::function<void(double time, std::vector<double> &load)> source; // adds heat, W; may be empty

  // Heat from air and source at a time, W.
  std::vector<double> load(double time) const;
  // Radiation above its linear part (which is in K), W: zero if all surfaces are at air
  // temperature.
  std::vector<double> radiation(const std::vector<double> &temperature) const;
  // Largest change of a surface's temperature that a change of `radiation` could make, K.
  double surface_change(const std::vector<double> &a, const std::vector<double> &b) const;
  // What a parked iron gives the bar, W; 0 for any other.
  double parked_heat(const std::vector<double> &temperature) const;
  // Temperature of the bar where the thermostat's sensor sits, K.
  double sensor(const std::vector<double> &temperature) const;
  // 1^T C T, J.
  double heat_content(const std::vector<double> &temperature) const;

private:
  struct Radiator
  {
    unsigned unknown;
    double strength;    // eps sigma times area, W/K^4
    double conductance; // all linear exchange with the air, W/K
    double air;         // K
  };
  void make_pattern(const Model &model, const HeatSurroundings &surroundings);
  void add_cells(const Model &model);
  void add_films(const Model &model, const HeatSurroundings &surroundings);
  void add_glue(const Model &model, const HeatSurroundings &surroundings);
  void add_bar(const BarOnBoard &bar);
  void add_parked_iron(const BarOnBoard &bar);
  void exchange(unsigned unknown, double conductance, double air);
  void connect(unsigned a, unsigned b, double conductance);

  unsigned nodes = 0;
  std::vector<BarContact> contacts;
  std::vector<Radiator> radiators;
  std::vector<double> air_load;
  std::vector<BarWeight> sensor_weights; // of bar nodes
  std::vector<BarWeight> parked;         // of bar nodes, W/K from a parked iron
  double parked_temperature = 0;         // K
};
} // namespace overbend::solver
