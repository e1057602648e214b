// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/results/file_error.h"
#include "solver/results/results.h"
#include "solver/results/results_reader.h"
#include "tests/unit/output_helpers.h"

#include <gmock/gmock.h>

#include <limits>
#include <set>
#include <stdexcept>

using namespace overbend::solver;
using namespace overbend::tests;
using ::testing::HasSubstr;

namespace
{
double as_float(double value)
{
  return static_cast<double>(static_cast<float>(value));
}

void expect_stored(const std::vector<double> &stored, const std::vector<double> &given,
                   double factor, double offset)
{
  ASSERT_EQ(stored.size(), given.size());
  for (std::size_t i = 0; i < given.size(); ++i)
    ASSERT_EQ(stored[i], as_float(given[i] * factor + offset)) << i;
}
} // namespace

// Source: documentation of the class vtkTriQuadraticHexahedron: 8 corners; 12 middles of the edges
// (0,1) (1,2) (2,3) (3,0) (4,5) (5,6) (6,7) (7,4) (0,4) (1,5) (2,6) (3,7); 6 middles of faces, the
// pairs across i, j and k; the middle.
TEST(NodeOrder, IsTheOneOfTheTriquadraticHexahedron)
{
  const auto at = [](int n) {
    const int l = vtk_node[static_cast<std::size_t>(n)];
    return std::array<int, 3>{l % 3, l / 3 % 3, l / 9};
  };
  const auto middle = [&](std::initializer_list<int> corners) {
    std::array<int, 3> sum = {0, 0, 0};
    for (const int corner : corners)
      for (std::size_t d = 0; d < 3; ++d)
        sum[d] += at(corner)[d];
    for (int &s : sum)
      s /= static_cast<int>(corners.size());
    return sum;
  };
  EXPECT_EQ(std::set<int>(vtk_node.begin(), vtk_node.end()).size(), 27u);
  EXPECT_EQ(at(0), (std::array<int, 3>{0, 0, 0}));
  EXPECT_EQ(at(1), (std::array<int, 3>{2, 0, 0}));
  EXPECT_EQ(at(3), (std::array<int, 3>{0, 2, 0}));
  EXPECT_EQ(at(4), (std::array<int, 3>{0, 0, 2}));
  EXPECT_EQ(at(6), (std::array<int, 3>{2, 2, 2}));
  const int edges[12][2] = {{0, 1}, {1, 2}, {2, 3}, {3, 0}, {4, 5}, {5, 6},
                            {6, 7}, {7, 4}, {0, 4}, {1, 5}, {2, 6}, {3, 7}};
  for (int e = 0; e < 12; ++e)
    EXPECT_EQ(at(8 + e), middle({edges[e][0], edges[e][1]})) << e;
  EXPECT_EQ(at(20), middle({0, 3, 4, 7}));
  EXPECT_EQ(at(21), middle({1, 2, 5, 6}));
  EXPECT_EQ(at(22), middle({0, 1, 4, 5}));
  EXPECT_EQ(at(23), middle({2, 3, 6, 7}));
  EXPECT_EQ(at(24), middle({0, 1, 2, 3}));
  EXPECT_EQ(at(25), middle({4, 5, 6, 7}));
  EXPECT_EQ(at(26), middle({0, 1, 2, 3, 4, 5, 6, 7}));
}

TEST(Results, ComeBackRoundedToFloatInTheirStatedUnits)
{
  const TemporaryFolder folder;
  const MeshData mesh = two_cells();
  {
    ResultsWriter writer(folder.file("run"), mesh, test_record());
    for (int step = 0; step < 3; ++step)
      writer.write_step(step_fields(mesh.n_nodes(), step));
    writer.finish(test_record());
  }
  const StoredResults stored = read_results(folder.file("run/results.h5"));
  expect_stored(stored.mesh.nodes, mesh.nodes, 1, 0);
  EXPECT_EQ(stored.mesh.cells, mesh.cells);
  EXPECT_EQ(stored.mesh.piece, mesh.piece);
  expect_stored(stored.mesh.glue.nodes, mesh.glue.nodes, 1, 0);
  ASSERT_EQ(stored.mesh.glue.lines.size(), 1u);
  EXPECT_EQ(stored.mesh.glue.lines[0].name, "board");
  EXPECT_EQ(stored.mesh.glue.lines[0].faces, mesh.glue.lines[0].faces);
  ASSERT_EQ(stored.steps.size(), 3u);
  for (int step = 0; step < 3; ++step) {
    const StepFields given = step_fields(mesh.n_nodes(), step);
    const StoredStep &got = stored.steps[static_cast<std::size_t>(step)];
    EXPECT_EQ(got.time, given.time);
    EXPECT_EQ(got.phase, given.phase);
    expect_stored(got.fields.at("displacement"), given.displacement, 1, 0);
    expect_stored(got.fields.at("temperature"), given.temperature, 1, -273.15);
    expect_stored(got.fields.at("moisture"), given.moisture, 100, 0);
    const char *const names[6] = {"sigma_xx", "sigma_yy", "sigma_zz",
                                  "sigma_xy", "sigma_yz", "sigma_xz"};
    for (std::size_t c = 0; c < 6; ++c)
      expect_stored(got.fields.at(names[c]), given.stress[c], 1e-6, 0);
    expect_stored(got.fields.at("stress_along_grain"), given.stress_along_grain, 1e-6, 0);
    expect_stored(got.fields.at("use_of_strength"), given.use_of_strength, 1, 0);
    expect_stored(got.fields.at("slip"), given.slip, 1e3, 0);
    expect_stored(got.fields.at("glue_displacement"), given.glue_displacement, 1, 0);
    expect_stored(got.fields.at("glue_slip"), given.glue_slip, 1e3, 0);
    expect_stored(got.fields.at("glue_shear"), given.glue_shear, 1e-6, 0);
  }
}

// Source: documentation of the class vtkBiQuadraticQuad: 4 corners around, the middles of the edges
// (0,1) (1,2) (2,3) (3,0), the middle.
TEST(NodeOrder, IsTheOneOfTheBiquadraticQuadrilateral)
{
  const std::array<std::array<int, 2>, 9> expected = {
      {{0, 0}, {2, 0}, {2, 2}, {0, 2}, {1, 0}, {2, 1}, {1, 2}, {0, 1}, {1, 1}}};
  for (std::size_t n = 0; n < 9; ++n)
    EXPECT_EQ((std::array<int, 2>{vtk_face_node[n] % 3, vtk_face_node[n] / 3}), expected[n]) << n;
}

TEST(Results, ANeckWithoutGlueLinesHasNoGlueSurface)
{
  const TemporaryFolder folder;
  MeshData mesh = two_cells();
  mesh.glue = {};
  {
    ResultsWriter writer(folder.file("run"), mesh, test_record());
    StepFields fields = step_fields(mesh.n_nodes(), 0);
    EXPECT_THROW(writer.write_step(fields), std::invalid_argument) << "glue without a line";
    fields.glue_displacement = fields.glue_slip = fields.glue_shear = {};
    writer.write_step(fields);
  }
  const StoredResults stored = read_results(folder.file("run/results.h5"));
  EXPECT_TRUE(stored.mesh.glue.lines.empty());
  EXPECT_EQ(stored.steps.at(0).fields.count("glue_slip"), 0u);
  EXPECT_EQ(contents(folder.file("run/results.xdmf")).find("Quadrilateral"), std::string::npos);
}

TEST(Results, CarryTheRecordOfTheRun)
{
  const TemporaryFolder folder;
  Record record = test_record();
  {
    ResultsWriter writer(folder.file("run"), two_cells(), record);
    EXPECT_EQ(writer.steps(), 0u);
    record.wall_time = 12.5;
    record.exit_reason = "plan within target";
    writer.finish(record);
  }
  const StoredResults stored = read_results(folder.file("run/results.h5"));
  for (const auto &[name, text] : record_lines(record))
    EXPECT_EQ(stored.record.at(name), text) << name;
  EXPECT_EQ(stored.record.at("exit reason"), "plan within target");
  EXPECT_EQ(stored.case_text, record.case_text);
}

TEST(Results, HoldLongCaseTextsAndManySteps)
{
  const TemporaryFolder folder;
  const MeshData mesh = two_cells();
  Record record = test_record();
  record.case_text = std::string(200000, 'x'); // more than an attribute can hold
  {
    ResultsWriter writer(folder.file("run"), mesh, record);
    for (int step = 0; step < 300; ++step)
      writer.write_step(step_fields(mesh.n_nodes(), step));
  }
  const StoredResults stored = read_results(folder.file("run/results.h5"));
  EXPECT_EQ(stored.case_text, record.case_text);
  ASSERT_EQ(stored.steps.size(), 300u);
  EXPECT_EQ(stored.steps[299].time, 299 * 600.);
}

TEST(Results, AFolderThatHoldsSomethingIsRefusedAndLeftAlone)
{
  const TemporaryFolder folder;
  std::filesystem::create_directories(folder.file("run"));
  std::ofstream(folder.file("run/notes.txt")) << "mine";
  try {
    ResultsWriter writer(folder.file("run"), two_cells(), test_record());
    FAIL() << "an existing folder was taken";
  } catch (const FileError &error) {
    EXPECT_THAT(error.what(), HasSubstr("already holds something"));
    EXPECT_THAT(error.what(), HasSubstr("name another results folder"));
  }
  EXPECT_FALSE(std::filesystem::exists(folder.file("run/results.h5")));
  ResultsWriter asked(folder.file("run"), two_cells(), test_record(), true);
  EXPECT_EQ(contents(folder.file("run/notes.txt")), "mine");
}

TEST(Results, AnEmptyFolderIsTaken)
{
  const TemporaryFolder folder;
  std::filesystem::create_directories(folder.file("run"));
  EXPECT_NO_THROW(ResultsWriter(folder.file("run"), two_cells(), test_record()));
}

TEST(Results, AFolderThatCannotBeMadeIsASentence)
{
  const TemporaryFolder folder;
  std::ofstream(folder.file("file")) << "x";
  for (const char *place : {"file", "file/run"})
    EXPECT_THROW(ResultsWriter(folder.file(place), two_cells(), test_record()), FileError) << place;
}

TEST(Results, AFieldThatIsNotFiniteOrTooLargeIsRefusedAndTheStepIsNotThere)
{
  const TemporaryFolder folder;
  const MeshData mesh = two_cells();
  ResultsWriter writer(folder.file("run"), mesh, test_record());
  for (const double bad : {std::numeric_limits<double>::quiet_NaN(), -HUGE_VAL, 1e45}) {
    StepFields fields = step_fields(mesh.n_nodes(), 0);
    fields.stress[4][7] = bad;
    try {
      writer.write_step(fields);
      FAIL() << bad;
    } catch (const std::invalid_argument &error) {
      EXPECT_THAT(error.what(), HasSubstr("sigma_yz is not finite at node 7"));
    }
  }
  StepFields fields = step_fields(mesh.n_nodes(), 0);
  fields.slip.pop_back();
  EXPECT_THROW(writer.write_step(fields), std::invalid_argument);
  EXPECT_EQ(writer.steps(), 0u);
  EXPECT_FALSE(std::filesystem::exists(folder.file("run/results.xdmf")));
}

TEST(Results, AMeshThatCannotBeIsRefused)
{
  const TemporaryFolder folder;
  MeshData mesh = two_cells();
  mesh.cells[5] = static_cast<int>(mesh.n_nodes());
  EXPECT_THROW(ResultsWriter(folder.file("run"), mesh, test_record()), std::invalid_argument);
  mesh = two_cells();
  mesh.glue.lines[0].faces[3] = 9;
  EXPECT_THROW(ResultsWriter(folder.file("run"), mesh, test_record()), std::invalid_argument);
  mesh = two_cells();
  mesh.glue.lines[0].faces.pop_back();
  EXPECT_THROW(ResultsWriter(folder.file("run"), mesh, test_record()), std::invalid_argument);
  EXPECT_THROW(ResultsWriter(folder.file("run"), MeshData(), test_record()), std::invalid_argument);
  EXPECT_FALSE(std::filesystem::exists(folder.file("run")));
}

TEST(Results, AFileOfAnotherKindIsNotRead)
{
  const TemporaryFolder folder;
  std::ofstream(folder.file("x.h5")) << "not a results file";
  EXPECT_THROW(read_results(folder.file("x.h5")), FileError);
  EXPECT_THROW(read_results(folder.file("missing.h5")), FileError);
}

TEST(Xdmf, NamesEveryStepEveryFieldWithItsUnitAndTheTimeInHours)
{
  const TemporaryFolder folder;
  const MeshData mesh = two_cells();
  ResultsWriter writer(folder.file("run"), mesh, test_record());
  writer.write_step(step_fields(mesh.n_nodes(), 0));
  writer.write_step(step_fields(mesh.n_nodes(), 3));
  const std::string text = contents(folder.file("run/results.xdmf"));
  EXPECT_THAT(text, HasSubstr("CollectionType=\"Temporal\""));
  EXPECT_THAT(text, HasSubstr("TopologyType=\"Hexahedron_27\" NumberOfElements=\"2\""));
  EXPECT_THAT(text, HasSubstr("<Time Value=\"0.5\"/>")); // 1800 s
  EXPECT_THAT(text, HasSubstr("Name=\"displacement [m]\" AttributeType=\"Vector\""));
  EXPECT_THAT(text, HasSubstr("Name=\"temperature [degC]\" AttributeType=\"Scalar\""));
  EXPECT_THAT(text, HasSubstr("Dimensions=\"45 3\""));
  EXPECT_THAT(text, HasSubstr("results.h5:/steps/00001/slip"));
  EXPECT_THAT(text, HasSubstr("Grid Name=\"board glue\""));
  EXPECT_THAT(text, HasSubstr("TopologyType=\"Quadrilateral_9\" NumberOfElements=\"1\""));
  EXPECT_THAT(text, HasSubstr("Name=\"shear [MPa]\""));
  EXPECT_THAT(text, HasSubstr("results.h5:/steps/00001/glue_slip"));
  EXPECT_FALSE(std::filesystem::exists(folder.file("run/results.xdmf.tmp")));
}
