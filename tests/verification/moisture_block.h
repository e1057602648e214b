// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/climate/moisture_steps.h"
#include "tests/verification/heat_block.h"

#include <memory>

// Blocks of one wood for comparison of the equations of moisture with closed forms.
namespace overbend::tests
{
// A wood whose diffusion is D in all directions at any temperature and moisture content.
inline materials::Wood with_diffusion(double D)
{
  materials::Wood wood = materials::tables().wood("sugar maple");
  wood.diffusion_12 = D;
  wood.diffusion_slope = wood.diffusion_energy = wood.diffusion_energy_fall = 0;
  wood.diffusion_ratio_dry = wood.diffusion_ratio_damp = 1;
  return wood;
}

// A surface without film of the given emission (m/s), whatever its moisture.
inline materials::Finish emitting(double emission)
{
  materials::Finish finish;
  finish.air_emission = emission;
  return finish;
}

// So well ventilated a surface is at rest with the air.
constexpr double at_rest = 1; // m/s

inline solver::Model make_wet_block(const Block &block, const materials::Wood &wood)
{
  solver::Model model = make_block(block);
  for (solver::PieceModel &piece : model.piece) {
    piece.law = std::make_shared<materials::WoodLaw>(wood);
    piece.dry_density = 500;
  }
  return model;
}

// 20 degC throughout and air in which the wood rests at one moisture content, for ever.
inline solver::MoistureDrive constant_air(const solver::MoistureSystem &system, double rest)
{
  const std::vector<double> T(system.size(), celsius(20)), ones(system.surface().size(), 1.),
      rests(system.surface().size(), rest);
  return {[T](double, double) { return T; },
          [ones, rests](double, double) {
            return solver::SurfaceAir{ones, {rests, rests, rests}};
          }};
}

inline solver::MoistureSurroundings one_open_face(const materials::Finish &finish)
{
  solver::MoistureSurroundings surroundings;
  surroundings.coating[id(mesh::Face::board_top)] = {&finish, {}};
  return surroundings;
}
} // namespace overbend::tests
