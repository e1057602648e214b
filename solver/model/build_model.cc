// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/model/build_model.h"

#include "cases/read/read_case.h"
#include "materials/thermal.h"
#include "mesh/grain_frames.h"
#include "solver/model/fret_slots.h"
#include "solver/model/strips.h"
#include "solver/model/swelling_field.h"

namespace overbend::solver
{
namespace
{
// Temperature at which heat capacities are taken, K: between shop and clamp.
constexpr double heat_reference = 308.15;
constexpr double shop_temperature = 293.15; // K, of the builder

PieceModel wood_piece(const materials::Wood &wood, const mesh::GrainFrame &frame, double moisture,
                      double stiffness_factor)
{
  PieceModel piece;
  piece.law = std::make_shared<materials::WoodLaw>(wood, stiffness_factor, moisture);
  piece.grain = columns(frame);
  piece.moisture = moisture;
  piece.dry_density = materials::density(wood, moisture) / (1 + moisture);
  piece.conductivity_along = materials::conductivity_along(wood, moisture);
  piece.conductivity_across = materials::conductivity_across(wood, moisture);
  piece.heat_capacity =
      materials::density(wood, moisture) * materials::heat_capacity(heat_reference, moisture);
  return piece;
}

PieceModel bar_piece(const materials::Bar &bar, const mesh::GrainFrame &frame)
{
  PieceModel piece;
  piece.law = std::make_shared<materials::WoodLaw>(materials::as_piece(bar));
  piece.grain = columns(frame);
  piece.conductivity_along = piece.conductivity_across = bar.conductivity;
  piece.heat_capacity = bar.density * bar.heat_capacity;
  return piece;
}

const char *bar_name(cases::BarMaterial material)
{
  switch (material) {
  case cases::BarMaterial::steel:
    return "steel";
  case cases::BarMaterial::carbon:
    return "carbon";
  case cases::BarMaterial::aluminium:
    return "aluminium";
  }
  return "";
}

GlueLineModel line_model(const cases::Case &the_case, const cases::Glue &glue, const char *name,
                         const materials::Tables &tables, double place)
{
  const auto &entry = tables.glue(glue.kind.value_or("white PVA"), the_case.file,
                                  cases::line_of(the_case, std::string("glue.") + name));
  return {std::make_shared<materials::GlueLaw>(
              materials::at_speed(entry, place),
              materials::line_thickness(entry, glue.thickness, place), the_case.room.humidity),
          name, entry};
}

// One frame a cell, at its middle node.
std::vector<std::array<Vec3, 3>> grain_by_cell(const Space &space, const mesh::NeckGrain &grain)
{
  std::vector<std::array<Vec3, 3>> frames;
  if (!grain.changes() && !grain.laminated())
    return frames;
  constexpr unsigned middle = 13;
  for (unsigned c = 0; c < space.n_cells; ++c) {
    const Vec3 &place = space.position[space.cell_node[c][middle]];
    frames.push_back(columns(grain.at(mesh::Piece(space.piece[c]), place[0], place[1])));
  }
  return frames;
}

std::optional<StripModel> strips_of(const cases::Case &the_case, const Space &space,
                                    const materials::Tables &tables, double stiffness_factor)
{
  const mesh::NeckGrain grain(the_case.neck);
  if (!grain.laminated())
    return {};
  std::vector<PieceModel> woods;
  for (const cases::Lamination &strip : the_case.neck.laminations) {
    const std::string key = "lamination[" + std::to_string(woods.size() + 1) + "].wood";
    woods.push_back(wood_piece(
        tables.wood(strip.piece.wood, the_case.file, cases::line_of(the_case, key)),
        mesh::grain_frame(strip.piece.grain), built_moisture(the_case), stiffness_factor));
    woods.back().swelling_along = strip.piece.swelling_along;
  }
  return lay_strips(space, grain, std::move(woods));
}

void append(std::vector<GluePoint> &points, const std::vector<GluePoint> &more)
{
  points.insert(points.end(), more.begin(), more.end());
}
} // namespace

materials::SorptionBranch sorption_branch(const cases::Case &the_case)
{
  switch (the_case.moisture.branch) {
  case cases::SorptionBranch::taking_up:
    return materials::SorptionBranch::adsorption;
  case cases::SorptionBranch::drying:
    return materials::SorptionBranch::desorption;
  case cases::SorptionBranch::mean:
    return materials::SorptionBranch::mean;
  }
  throw std::logic_error("unknown branch of sorption");
}

double built_moisture(const cases::Case &the_case)
{
  return materials::equilibrium_moisture(shop_temperature, the_case.moisture.built_at,
                                         sorption_branch(the_case));
}

Model build_model(const cases::Case &the_case, const mesh::NeckMesh &mesh,
                  const materials::Tables &tables, const ModelChoices &choices)
{
  Model model;
  model.branch = sorption_branch(the_case);
  model.space = make_space(mesh);

  const double moisture = built_moisture(the_case);
  const auto wood = [&](const cases::Piece &piece, mesh::Piece id, const char *key) {
    model.piece[unsigned(id)] =
        wood_piece(tables.wood(piece.wood, the_case.file, cases::line_of(the_case, key)),
                   mesh.grain[unsigned(id)], moisture, choices.stiffness_factor);
    model.piece[unsigned(id)].swelling_along = piece.swelling_along;
  };
  const cases::NeckShape &neck = the_case.neck;
  wood(neck.shaft, mesh::Piece::shaft, "shaft.wood");
  wood(neck.shaft, mesh::Piece::fillet, "shaft.wood");
  wood(neck.shaft, mesh::Piece::rod_space, "shaft.wood");
  wood(neck.board, mesh::Piece::board, "board.wood");
  const bool scarf = neck.headstock.kind == cases::HeadstockKind::scarf;
  wood(scarf ? neck.headstock.piece : neck.shaft, mesh::Piece::headstock, "headstock.wood");
  model.piece[unsigned(mesh::Piece::bar)] =
      bar_piece(tables.bar(bar_name(neck.rod.bar)), mesh.grain[unsigned(mesh::Piece::bar)]);

  model.cell_grain = grain_by_cell(model.space, mesh::NeckGrain(neck));
  model.strips = strips_of(the_case, model.space, tables, choices.stiffness_factor);
  model.swelling_along =
      swelling_by_cell(model.space, the_case.scatter, scarf,
                       model.strips ? model.strips->wood_at_middle : std::vector<std::uint8_t>{});

  model.slot_give = slots_by_point(model, neck);

  // The tongue lies on the body with the same glue as the board.
  model.glue_line = {
      line_model(the_case, the_case.board_glue, "board", tables, choices.line_place),
      line_model(the_case, the_case.scarf_glue, "scarf", tables, choices.line_place),
      line_model(the_case, the_case.board_glue, "board", tables, choices.line_place)};
  model.glue_line[tongue_line].name = "tongue";
  append(model.glue_point, pair_nodes(model.space, unsigned(mesh::Face::board_glue_upper),
                                      unsigned(mesh::Face::board_glue_lower), board_line));
  append(model.glue_point, pair_nodes(model.space, unsigned(mesh::Face::scarf_shaft),
                                      unsigned(mesh::Face::scarf_head), scarf_line));
  if (neck.tongue_glued)
    append(model.glue_point,
           points_on_body(model.space, unsigned(mesh::Face::tongue_under), tongue_line));
  return model;
}
} // namespace overbend::solver
