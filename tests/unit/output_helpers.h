// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cases/case/phase.h"
#include "solver/results/results.h"

#include <gtest/gtest.h>
#include <unistd.h>

#include <cmath>
#include <filesystem>
#include <fstream>
#include <sstream>
#include <string>

namespace overbend::tests
{
// A fresh place under the folder for temporary files, removed at the end.
class TemporaryFolder
{
public:
  TemporaryFolder()
  {
    const auto *info = ::testing::UnitTest::GetInstance()->current_test_info();
    path_ = std::filesystem::temp_directory_path() /
            ("overbend_" + std::string(info->test_suite_name()) + "_" + info->name() + "_" +
             std::to_string(getpid()));
    std::filesystem::remove_all(path_);
    std::filesystem::create_directories(path_);
  }
  ~TemporaryFolder() { std::filesystem::remove_all(path_); }
  std::string file(const std::string &name) const { return (path_ / name).string(); }

private:
  std::filesystem::path path_;
};

inline std::string contents(const std::string &path)
{
  std::ifstream in(path, std::ios::binary);
  std::ostringstream text;
  text << in.rdbuf();
  return text.str();
}

// Two cells of 27 nodes in a row along x, 0.1 m each, sharing a face.
inline solver::MeshData two_cells()
{
  solver::MeshData mesh;
  for (int k = 0; k < 3; ++k)
    for (int j = 0; j < 3; ++j)
      for (int i = 0; i < 5; ++i)
        for (const double x : {0.05 * i, 0.02 * j, 0.01 * k})
          mesh.nodes.push_back(x);
  for (int cell = 0; cell < 2; ++cell) {
    for (const int l : solver::vtk_node)
      mesh.cells.push_back(2 * cell + l % 3 + 5 * (l / 3 % 3) + 15 * (l / 9));
    mesh.piece.push_back(cell + 1);
  }
  // A glue line under the first cell, with points of its own.
  for (int j = 0; j < 3; ++j)
    for (int i = 0; i < 3; ++i)
      for (const double x : {0.05 * i, 0.02 * j, 0.})
        mesh.glue.nodes.push_back(x);
  mesh.glue.lines.push_back(
      {"board", {solver::vtk_face_node.begin(), solver::vtk_face_node.end()}});
  return mesh;
}

// A step in which every value of every field differs.
inline solver::StepFields step_fields(std::size_t nodes, int step)
{
  solver::StepFields fields;
  fields.time = 600. * step;
  fields.phase = step == 0 ? "clamp" : "heat";
  const auto filled = [&](std::size_t size, double base, double step_size) {
    std::vector<double> values(size);
    for (std::size_t i = 0; i < size; ++i)
      values[i] = base + step_size * (static_cast<double>(i) + 1000. * step);
    return values;
  };
  fields.displacement = filled(3 * nodes, -1e-3, 1.1e-8);
  fields.temperature = filled(nodes, 293.15, 1e-4);
  fields.moisture = filled(nodes, 0.09, 1e-6);
  for (int c = 0; c < 6; ++c)
    fields.stress[static_cast<std::size_t>(c)] = filled(nodes, 1e6 * (c - 2.5), 13.7);
  fields.stress_along_grain = filled(nodes, 3e6, 5.3);
  fields.use_of_strength = filled(nodes, 0.01, 1e-5);
  fields.slip = filled(nodes, 0, 1e-9);
  fields.glue_displacement = filled(27, 2e-3, 1e-6);
  fields.glue_slip = filled(9, 1e-6, 1e-8);
  fields.glue_shear = filled(9, 1e5, 3.1);
  return fields;
}

// Two steps a phase: just after it began, and at its end.
inline void write_phases(solver::ResultsWriter &writer, solver::StepFields fields,
                         const std::vector<cases::Phase> &phases)
{
  double time = 0;
  for (const cases::Phase &phase : phases) {
    fields.phase = phase.name;
    fields.on_bench = {phase.pass, phase.heater, phase.cords};
    for (const double at : {time + 1, time + phase.duration}) {
      fields.time = at;
      writer.write_step(fields);
    }
    time += phase.duration;
  }
}

inline solver::Record test_record()
{
  return solver::make_record("somewhere/neck.toml", "title = \"a neck\"\n# café\n",
                             {{"woods", solver::sha256("woods")}}, 1);
}
} // namespace overbend::tests
