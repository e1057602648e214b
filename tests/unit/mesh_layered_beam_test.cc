// SPDX-License-Identifier: GPL-3.0-or-later
#include "mesh/layered_beam.h"
#include "mesh/section.h"

#include <deal.II/base/quadrature_lib.h>
#include <deal.II/fe/fe_nothing.h>
#include <deal.II/fe/fe_values.h>
#include <deal.II/fe/mapping_q_cache.h>
#include <deal.II/grid/tria.h>
#include <deal.II/grid/tria_accessor.h>
#include <deal.II/grid/tria_iterator.h>

#include <gtest/gtest.h>

#include <map>

using namespace overbend::mesh;

namespace
{
std::map<unsigned, double> volumes(const NeckMesh &mesh)
{
  dealii::FE_Nothing<3> fe;
  dealii::FEValues<3> values(*mesh.mapping, fe, dealii::QGauss<3>(4), dealii::update_JxW_values);
  std::map<unsigned, double> result;
  for (const auto &cell : mesh.triangulation->active_cell_iterators()) {
    values.reinit(cell);
    for (const double dv : values.get_JxW_values()) {
      EXPECT_GT(dv, 0);
      result[cell->material_id()] += dv;
    }
  }
  return result;
}

std::map<unsigned, double> areas(const NeckMesh &mesh)
{
  dealii::FE_Nothing<3> fe;
  dealii::FEFaceValues<3> values(*mesh.mapping, fe, dealii::QGauss<2>(4),
                                 dealii::update_JxW_values);
  std::map<unsigned, double> result;
  for (const auto &cell : mesh.triangulation->active_cell_iterators())
    for (const unsigned f : cell->face_indices())
      if (cell->face(f)->at_boundary()) {
        values.reinit(cell, f);
        for (const double da : values.get_JxW_values())
          result[cell->face(f)->boundary_id()] += da;
      }
  return result;
}

double area(const NeckMesh &mesh, Face face)
{
  return areas(mesh)[static_cast<unsigned>(face)];
}
double volume(const NeckMesh &mesh, Piece piece)
{
  return volumes(mesh)[static_cast<unsigned>(piece)];
}
} // namespace

TEST(LayeredBeam, RectangleHasTheVolumesAndFacesOfItsBox)
{
  LayeredBeam beam;
  beam.end_cell = 0.004;
  const NeckMesh mesh = make_layered_beam(beam);
  const double plan = beam.length * beam.width;
  EXPECT_NEAR(volume(mesh, Piece::board), plan * beam.board_thickness, 1e-15);
  EXPECT_NEAR(volume(mesh, Piece::shaft), plan * beam.shaft_depth, 1e-15);
  EXPECT_NEAR(area(mesh, Face::board_glue_upper), plan, 1e-12);
  EXPECT_NEAR(area(mesh, Face::board_glue_lower), plan, 1e-12);
  EXPECT_NEAR(area(mesh, Face::board_top), plan, 1e-12);
  EXPECT_NEAR(area(mesh, Face::board_side), 2 * beam.length * beam.board_thickness, 1e-12);
  EXPECT_NEAR(area(mesh, Face::body), beam.width * beam.shaft_depth, 1e-12);
}

TEST(LayeredBeam, RoundBackHasTheAreaOfItsSection)
{
  LayeredBeam beam;
  beam.back_exponent = 2.2;
  const NeckMesh mesh = make_layered_beam(beam);
  const double section = section_area({beam.width / 2, 0, beam.shaft_depth, 1 / 2.2});
  EXPECT_NEAR(area(mesh, Face::body) / section, 1, 1e-3);
  EXPECT_NEAR(volume(mesh, Piece::shaft) / (section * beam.length), 1, 1e-3);
}

TEST(LayeredBeam, SingleBlockHasNoGlueFaces)
{
  LayeredBeam beam;
  beam.board_thickness = 0;
  auto a = areas(make_layered_beam(beam));
  EXPECT_EQ(a.count(static_cast<unsigned>(Face::board_glue_lower)), 0u);
  EXPECT_NEAR(a[static_cast<unsigned>(Face::board_top)], beam.length * beam.width, 1e-12);
}

TEST(LayeredBeam, BondedLayersShareTheirNodes)
{
  LayeredBeam split, bonded;
  bonded.glue_line = false;
  const NeckMesh with = make_layered_beam(split), without = make_layered_beam(bonded);
  const std::size_t on_plane = (2 * split.cells_along + 1) * (2 * split.cells_across + 1);
  EXPECT_EQ(with.hexes.nodes().size(), without.hexes.nodes().size() + on_plane);
  EXPECT_EQ(area(without, Face::board_glue_lower), 0);
}

TEST(LayeredBeam, MovedMeshKeepsItsShape)
{
  NeckMesh mesh = make_layered_beam({});
  const double before = volume(mesh, Piece::board);
  const auto elsewhere = std::make_unique<NeckMesh>(std::move(mesh));
  mesh = make_layered_beam({});
  EXPECT_EQ(volume(*elsewhere, Piece::board), before);
}
