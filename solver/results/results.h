// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/results/readings_table.h"
#include "solver/results/record.h"

#include <array>
#include <memory>
#include <string>
#include <vector>

// The results folder of a run.
//
//   results.h5      format "overbend results", number format_number
//     /mesh/nodes         float32 nodes x 3, m          /mesh/cells  int32 cells x 27
//     /mesh/piece         int32 cells, material id of mesh::Piece
//     /glue/nodes         float32 points x 3, m: the points of the glue lines; missing without any
//     /glue/board         int32 faces x 9 points (also /glue/scarf, /glue/tongue: those there are)
//     /steps/00012        attributes time [s], pass, heated and clamped (0 or 1), phase (the last
//     to be written); float32 a node each:
//       displacement [m] (x 3), temperature [degC], moisture [%], sigma_xx, _yy, _zz, _xy, _yz, _xz
//       [MPa] along the axes of the neck, stress_along_grain [MPa], use_of_strength [-], slip [mm];
//       a point of the glue lines each: glue_displacement [m] (x 3; of the upper side), glue_slip
//       [mm], glue_shear [MPa]
//     /readings           float64 a column, SI, attribute unit; not a number where not read
//     /record             attributes; case_text
//   results.xdmf    the same as a time series of curved cells for ParaView, times in hours: the
//   neck
//                   and each glue line as blocks
//   readings.csv    the table of readings (a run also writes gaps.csv:
//   solver/report/run_readings.h)
//
// Every step is flushed before results.xdmf names it (a reader aborts on data that are not there),
// and results.xdmf is replaced as a whole: after a kill, all steps it names can be read. (Groups of
// steps without the attribute phase are those the run did not come to.) Looking at a run that still
// goes on is possible. A power cut is not guarded against.
// The values are rounded to float32 (relative 6e-8): they are for looking at, not for going on.
// Errors: FileError (disk, rights, an earlier run in the folder), std::invalid_argument (a field of
// the wrong length, a number that is not finite: a fault of the program).
namespace overbend::solver
{
// Name of the phase of a step that shows the neck before the first phase.
constexpr const char *as_found = "as found";

// 2: glue lines as surfaces; 3: moisture; 4: what is on the bench
constexpr int format_number = 4;

// What stands on the bench in a step. A plan has phases that its case does not list, so who reads
// results asks the step and not the case.
struct OnBench
{
  int pass = 1; // of the corrections, from 1
  bool heated = false, clamped = false;
};

// The glue lines as surfaces of their own. Each line has its own points, also where two meet.
struct GlueSurface
{
  struct Line
  {
    std::string name;       // "board", "scarf", "tongue"
    std::vector<int> faces; // 9 points a face, in the order of vtk_face_node below
    std::size_t n_faces() const { return faces.size() / 9; }
  };
  std::vector<double> nodes; // 3 a point, m
  std::vector<Line> lines;   // those that have a face
  std::size_t n_nodes() const { return nodes.size() / 3; }
};

struct MeshData
{
  std::vector<double> nodes; // 3 a node, m
  std::vector<int> cells;    // 27 nodes a cell, in the order of vtk_node below
  std::vector<int> piece;    // 1 a cell
  GlueSurface glue;
  std::size_t n_nodes() const { return nodes.size() / 3; }
  std::size_t n_cells() const { return piece.size(); }
};

// Position of the 27 nodes of a cell in the order of VTK's triquadratic hexahedron, as a
// lexicographic index i + 3 j + 9 k with i, j, k = 0, 1, 2 along the cell's axes: 8 corners, 12
// edges, 6 faces, the middle. Source: class documentation of vtkTriQuadraticHexahedron, picture.
constexpr std::array<int, 27> vtk_node = {0,  2,  8, 6,  18, 20, 26, 24, 1,  5,  7, 3,  19, 23,
                                          25, 21, 9, 11, 17, 15, 12, 14, 10, 16, 4, 22, 13};

// The same for the 9 nodes of a face, i + 3 j: VTK's biquadratic quadrilateral (4 corners, 4 edges,
// the middle). Source: class documentation of vtkBiQuadraticQuad.
constexpr std::array<int, 9> vtk_face_node = {0, 2, 8, 6, 1, 5, 7, 3, 4};

// Fields at the nodes at the end of one step, SI: K, Pa, m. All steps of a run hold the same.
struct StepFields
{
  double time = 0; // s since the start of the run
  std::string phase;
  OnBench on_bench;
  std::vector<double> displacement;          // 3 a node
  std::vector<double> temperature;           // K
  std::vector<double> moisture;              // kg water a kg of dry wood
  std::array<std::vector<double>, 6> stress; // xx yy zz xy yz xz, Pa
  std::vector<double> stress_along_grain;    // Pa
  std::vector<double> use_of_strength;       // 1: at the limit
  std::vector<double> slip;                  // amount, of glue-line nodes; 0 elsewhere
  // At the points of the glue surface.
  std::vector<double> glue_displacement; // 3 a point, of the upper side
  std::vector<double> glue_slip;         // amount
  std::vector<double> glue_shear;        // amount, Pa
};

// What the fields are called and in which unit they are stored.
struct StoredField
{
  const char *name; // of the data set
  const char *unit;
  int columns;
  std::string shown_name() const { return std::string(name) + " [" + unit + "]"; }
};
const std::array<StoredField, 12> &stored_fields();
const std::array<StoredField, 3> &stored_glue_fields();

class ResultsWriter
{
public:
  // Makes the folder and writes mesh and record. A folder that already holds something is refused
  // unless `overwrite`; then the files of this list are replaced and nothing else is touched.
  ResultsWriter(const std::string &folder, const MeshData &mesh, const Record &record,
                bool overwrite = false);
  ~ResultsWriter(); // what was flushed stays; nothing else is promised without finish
  ResultsWriter(const ResultsWriter &) = delete;
  ResultsWriter &operator=(const ResultsWriter &) = delete;

  void write_step(const StepFields &fields);

  // May be called again with a longer table.
  void write_readings(const ReadingsTable &table);

  // Renews the record with wall time and exit reason and closes the file.
  void finish(const Record &record);

  std::size_t steps() const;

private:
  struct State;
  std::unique_ptr<State> state_;
};
} // namespace overbend::solver
