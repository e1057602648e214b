// SPDX-License-Identifier: GPL-3.0-or-later
#include "cases/declare/declarations.h"
#include "mesh/names.h"
#include "solver/climate/moisture.h"
#include "solver/model/build_model.h"

namespace overbend::solver
{
namespace
{
using mesh::Face;

unsigned id(Face face)
{
  return static_cast<unsigned>(face);
}

Coating coating_of(const cases::FinishedFace &face, double cloth = 0)
{
  return {&materials::tables().finish(cases::finish_word(face.kind)),
          face.condition == cases::FinishCondition::worn ? materials::FilmCondition::worn
                                                         : materials::FilmCondition::sound,
          cloth};
}
} // namespace

MoistureSurroundings moisture_surroundings(const Model &model, const cases::Case &the_case,
                                           const cases::Air &air, bool bar_on_board)
{
  MoistureSurroundings s;
  s.glue_conductance = model.glue_line.at(board_line).glue.water_conductance;
  const cases::FinishedFaces &faces = the_case.faces;
  const double cloth = air.wrapped ? air.wrap_resistance : 0;
  for (const Face face :
       {Face::board_top, Face::board_side, Face::board_nut_end, Face::board_body_end})
    s.coating[id(face)] = coating_of(faces.board, cloth);
  s.coating[id(Face::back)] = coating_of(faces.back, cloth);
  for (const Face face : {Face::headstock_face, Face::headstock_other})
    s.coating[id(face)] = coating_of(faces.headstock, cloth);
  if (!tongue_is_glued(model))
    s.coating[id(Face::tongue_under)] = coating_of({cases::Finish::bare, {}});
  if (bar_on_board)
    s.cover = bar_outline(the_case.heater);
  return s;
}
} // namespace overbend::solver
