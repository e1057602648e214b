// SPDX-License-Identifier: GPL-3.0-or-later
// Before deal.II, whose macro Assert takes a name that gmock defines.
#include <gmock/gmock.h>

#include "cases/declare/presets.h"
#include "cases/read/read_case.h"
#include "mesh/make_neck_mesh.h"
#include "mesh/mesh_report.h"
#include "mesh/shape_error.h"
#include "tests/unit/mesh_checks.h"

#include <deal.II/fe/fe_tools.h>
#include <deal.II/fe/mapping_q_cache.h>
#include <deal.II/grid/tria.h>

// Necks as a user gets them, by a case of a few lines; and meshes that are refused.
using namespace overbend;
using namespace overbend::mesh;
using testing::HasSubstr;

namespace
{
// As a user gets it: the shape of a case of a few lines.
cases::NeckShape preset_neck(const std::string &preset)
{
  return cases::parse_case("preset = \"" + preset + "\"\n[found]\nbow = \"0.6 mm\"\n",
                           preset + ".toml")
      .neck;
}

// Moves the middle node of the cell at a place along x by 0.6 of the cell's length, in the mapping
// only: more than a third folds it. Returns the cell's ends, m.
std::array<double, 2> dent(NeckMesh &mesh, const dealii::Point<3> &place)
{
  unsigned nearest = 0;
  double best = 1;
  const auto &hexes = mesh.hexes;
  for (unsigned c = 0; c < hexes.cells().size(); ++c) {
    const double d = hexes.nodes()[hexes.cells()[c].node[13]].distance(place);
    if (d < best) {
      best = d;
      nearest = c;
    }
  }
  std::array<double, 2> ends{1, -1};
  for (const unsigned n : hexes.cells()[nearest].node) {
    ends[0] = std::min(ends[0], hexes.nodes()[n][0]);
    ends[1] = std::max(ends[1], hexes.nodes()[n][0]);
  }
  const auto order = dealii::FETools::hierarchic_to_lexicographic_numbering<3>(2);
  mesh.mapping = std::make_shared<dealii::MappingQCache<3>>(2);
  mesh.mapping->initialize(*mesh.triangulation, [&](const auto &cell) {
    std::vector<dealii::Point<3>> points(27);
    for (unsigned i = 0; i < 27; ++i) {
      points[i] = hexes.nodes()[hexes.cells()[unsigned(cell->index())].node[order[i]]];
      if (order[i] == 13 && unsigned(cell->index()) == nearest)
        points[i][0] += 0.6 * (ends[1] - ends[0]);
    }
    return points;
  });
  return ends;
}
} // namespace

TEST(NeckMesh, EveryPresetOfACaseFileHasPositiveJacobiansAndItsVolumes)
{
  ASSERT_GE(cases::presets().size(), 4u);
  for (const auto &[preset, sentence, text] : cases::presets())
    for (const double resolution : {0.5, 1.0}) {
      SCOPED_TRACE(preset + " at " + std::to_string(resolution));
      const cases::NeckShape shape = preset_neck(preset);
      const NeckMesh mesh = make_neck_mesh(shape, resolution);
      EXPECT_GT(report(mesh).least_scaled_jacobian, 0);
      tests::expect_volumes(mesh, shape, 0.01);
      tests::expect_symmetric(mesh);
    }
}

// A node far out of its place folds the cell: refused, and the place named.
TEST(NeckMesh, WithACellInsideOutItIsRefusedAndThePlaceNamed)
{
  const cases::NeckShape shape = preset_neck("electric");
  const struct
  {
    dealii::Point<3> place;
    const char *words;
  } dents[] = {{{0.2, -0.018, 0.003}, "inside out near the bass side of the board at"},
               {{0.2, 0.015, -0.006}, "inside out near the treble side of the back at"},
               {{-0.1, 0.02, -0.008}, "inside out near the treble side of the headstock at"},
               {{0.46, 0.02, 0.003}, "inside out near the treble side of the tongue at"}};
  for (const auto &[place, words] : dents) {
    NeckMesh mesh = make_neck_mesh(shape, 0.5);
    EXPECT_NO_THROW(report(mesh));
    const auto ends = dent(mesh, place);
    try {
      report(mesh);
      ADD_FAILURE() << "a folded cell was accepted: " << words;
    } catch (const ShapeError &error) {
      EXPECT_THAT(error.problem, HasSubstr(words));
      const double told = std::stod(error.problem.substr(error.problem.find(" at ") + 4));
      const double x = (place[0] < 0 ? -1e-3 : 1e-3) * told;
      EXPECT_GT(x, ends[0] - 1e-3);
      EXPECT_LT(x, ends[1] + 0.2 * (ends[1] - ends[0])); // the moved points reach beyond the cell
      EXPECT_THAT(error.problem, HasSubstr(place[0] < 0 ? "mm behind the nut" : "mm from the nut"));
      EXPECT_FALSE(error.remedy.empty());
    }
  }
}
