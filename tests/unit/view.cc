// SPDX-License-Identifier: GPL-3.0-or-later
// What the interactive view of the report is given to draw.
// First: deal.II has a macro that gmock does not bear.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "solver/results/text_file.h"
#include "tests/unit/invented_plan.h"
#include "tests/unit/output_helpers.h"
#include "viz/view/surface.h"
#include "viz/view/view_data.h"

using namespace overbend;
using ::testing::AnyOf;
using ::testing::HasSubstr;
using ::testing::IsEmpty;

namespace
{
// A plan of two passes with results of its phases.
void write_plan_and_results(const std::string &folder)
{
  const cases::Case c = tests::two_passes();
  const solver::Record record =
      solver::make_record("a.toml", "preset = \"electric\"\n\n[found]\nbow = \"1 mm\"\n", {}, 1);
  const solver::MeshData mesh = tests::two_cells();
  solver::ResultsWriter writer(folder, mesh, record);
  tests::write_phases(writer, tests::step_fields(mesh.n_nodes(), 0), c.phases);
  writer.finish(record);
  solver::write_text_file(folder + "/plan.json", tests::invented_plan(c, solver::Verdict::do_it));
}

// Bytes of what view_data.h describes.
std::size_t bytes_of(const viz::Json &part, std::size_t stages)
{
  const auto n = part.at("nodes").get<std::size_t>();
  return 12 * n + 12 * part.at("triangles").get<std::size_t>() +
         8 * part.at("edges").get<std::size_t>() + stages * n * (6 + 2 * part.at("fields").size());
}
} // namespace

TEST(View, CarriesEachStageWithItsReadingAndFieldsWithTheirColours)
{
  const tests::TemporaryFolder folder;
  write_plan_and_results(folder.file("run"));
  const viz::ViewData data = viz::view_data(viz::PlanFile(folder.file("run")));
  ASSERT_THAT(data.why_not, IsEmpty());
  const viz::Json about = viz::Json::parse(data.description);
  const auto stages = about.at("stages");
  ASSERT_GE(stages.size(), 6u);
  for (const viz::Json &stage : stages) {
    EXPECT_THAT(stage.at("moment").get<std::string>(), HasSubstr("phase"));
    EXPECT_THAT(stage.at("bow").get<std::string>(), AnyOf(HasSubstr("mm ("), "straight"));
    EXPECT_FALSE(stage.at("twist").get<std::string>().empty());
  }
  for (const viz::Json &field : about.at("wood").at("fields")) {
    const std::string colours = field.at("colours");
    if (colours == "signed") {
      EXPECT_EQ(field.at("from").get<double>(), -field.at("to").get<double>());
    }
    if (colours == "use") {
      EXPECT_EQ(field.at("from"), 0);
      EXPECT_EQ(field.at("to"), 100);
      EXPECT_EQ(field.at("unit"), "%");
    }
  }
  const std::size_t bytes =
      bytes_of(about.at("wood"), stages.size()) + bytes_of(about.at("glue"), stages.size());
  EXPECT_EQ(data.bytes.size(), 4 * ((bytes + 2) / 3)) << "the script reads just these";
}

// The box of two cells: four long edges of two pieces each, and four at each end; not the plane
// where the cells meet, nor the diagonals of its faces.
TEST(Surface, HasTheSharpEdgesAndNoDiagonals)
{
  EXPECT_EQ(viz::skin(tests::two_cells()).edges.size(), 2u * 16);
}

TEST(Surface, FretsLieAcrossTheTopWhereTheyBelong)
{
  const viz::Surface skin = viz::skin(tests::two_cells());
  const std::vector<viz::AcrossTop> lines = viz::across_top(skin, {0.03, 0.17, 0.5});
  ASSERT_EQ(lines.size(), 2u) << "one lies beyond the board";
  const auto at = [&](const viz::AcrossTop::Point &p, std::size_t i) {
    return skin.nodes[3 * p.a + i] + p.share * (skin.nodes[3 * p.b + i] - skin.nodes[3 * p.a + i]);
  };
  EXPECT_NEAR(at(lines[0].centre, 0), 0.03, 1e-12);
  EXPECT_NEAR(at(lines[1].bass, 0), 0.17, 1e-12);
  EXPECT_NEAR(at(lines[1].bass, 1), 0, 1e-12);
  EXPECT_NEAR(at(lines[1].treble, 1), 0.04, 1e-12);
  EXPECT_NEAR(at(lines[1].treble, 2), 0.02, 1e-12);
}
