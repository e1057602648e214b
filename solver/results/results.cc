// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/results/results.h"

#include "solver/results/file_error.h"
#include "solver/results/hdf5_file.h"
#include "solver/results/text_file.h"
#include "solver/results/xdmf.h"

#include <algorithm>
#include <array>
#include <cfloat>
#include <cmath>
#include <cstdio>
#include <filesystem>
#include <limits>
#include <stdexcept>

namespace overbend::solver
{
namespace
{
namespace fs = std::filesystem;

constexpr const char *data_file = "results.h5";
constexpr std::size_t steps_ahead = 256;

void make_folder(const std::string &folder, bool overwrite)
{
  std::error_code error;
  const bool there = fs::exists(folder, error);
  if (there && !fs::is_directory(folder, error))
    throw FileError(folder, "is a file, not a folder", "name another results folder");
  if (there && !overwrite && !fs::is_empty(folder, error))
    throw FileError(folder, "already holds something, perhaps an earlier run",
                    "name another results folder or ask for it to be overwritten");
  if (!there)
    fs::create_directories(folder, error);
  if (error)
    throw FileError(folder, "cannot be made or read (" + error.message() + ")",
                    "check the rights of the folder it lies in");
}

// Values of one field in the unit they are stored in. Floats end at 3.4e38: a larger number would
// be stored as infinite.
std::vector<double> checked(const std::vector<double> &values, std::size_t expected,
                            const StoredField &field, double factor = 1, double offset = 0)
{
  if (values.size() != expected)
    throw std::invalid_argument("field " + std::string(field.name) + " has " +
                                std::to_string(values.size()) + " values instead of " +
                                std::to_string(expected));
  std::vector<double> stored(values.size());
  for (std::size_t i = 0; i < values.size(); ++i) {
    stored[i] = values[i] * factor + offset;
    if (!(std::abs(stored[i]) <= static_cast<double>(FLT_MAX)))
      throw std::invalid_argument("field " + std::string(field.name) + " is not finite at node " +
                                  std::to_string(i / static_cast<std::size_t>(field.columns)));
  }
  return stored;
}

void check_mesh(const MeshData &mesh)
{
  if (mesh.nodes.empty() || mesh.nodes.size() % 3 != 0 || mesh.piece.empty() ||
      mesh.cells.size() != 27 * mesh.piece.size())
    throw std::invalid_argument("a mesh needs 3 numbers a node, 27 nodes and a piece a cell");
  const auto [least, most] = std::minmax_element(mesh.cells.begin(), mesh.cells.end());
  if (*least < 0 || static_cast<std::size_t>(*most) >= mesh.n_nodes())
    throw std::invalid_argument("a cell names a node that the mesh does not have");
  checked(mesh.nodes, mesh.nodes.size(), {"nodes", "m", 3});
  checked(mesh.glue.nodes, 3 * mesh.glue.n_nodes(), {"glue nodes", "m", 3});
  for (const GlueSurface::Line &line : mesh.glue.lines)
    for (const int node : line.faces)
      if (line.faces.size() % 9 != 0 || node < 0 ||
          static_cast<std::size_t>(node) >= mesh.glue.n_nodes())
        throw std::invalid_argument("a face of the glue line " + line.name +
                                    " names a point that is not there or has not 9 of them");
}

std::string group_of(std::size_t step)
{
  std::array<char, 32> name;
  std::snprintf(name.data(), name.size(), "/steps/%05zu", step);
  return name.data();
}
} // namespace

const std::array<StoredField, 12> &stored_fields()
{
  static const std::array<StoredField, 12> fields = {{{"displacement", "m", 3},
                                                      {"temperature", "degC", 1},
                                                      {"moisture", "%", 1},
                                                      {"sigma_xx", "MPa", 1},
                                                      {"sigma_yy", "MPa", 1},
                                                      {"sigma_zz", "MPa", 1},
                                                      {"sigma_xy", "MPa", 1},
                                                      {"sigma_yz", "MPa", 1},
                                                      {"sigma_xz", "MPa", 1},
                                                      {"stress_along_grain", "MPa", 1},
                                                      {"use_of_strength", "-", 1},
                                                      {"slip", "mm", 1}}};
  return fields;
}

const std::array<StoredField, 3> &stored_glue_fields()
{
  static const std::array<StoredField, 3> fields = {
      {{"glue_displacement", "m", 3}, {"glue_slip", "mm", 1}, {"glue_shear", "MPa", 1}}};
  return fields;
}

struct ResultsWriter::State
{
  std::string folder;
  std::size_t n_nodes, n_glue;
  XdmfMesh shown;
  Record record;
  hdf5::File file;
  std::vector<XdmfStep> steps;
  std::size_t groups; // groups of steps made so far

  std::string path(const char *name) const { return (fs::path(folder) / name).string(); }

  void write_mesh(const MeshData &mesh)
  {
    file.make_group("/mesh");
    file.write("/mesh/nodes", mesh.nodes, {mesh.n_nodes(), 3});
    file.write("/mesh/cells", mesh.cells, {mesh.n_cells(), 27});
    file.write("/mesh/piece", mesh.piece, {mesh.n_cells(), 1});
    file.write_attribute("/mesh/nodes", "unit", std::string("m"));
    file.make_group("/glue");
    if (n_glue == 0)
      return;
    file.write("/glue/nodes", mesh.glue.nodes, {n_glue, 3});
    file.write_attribute("/glue/nodes", "unit", std::string("m"));
    for (const GlueSurface::Line &line : mesh.glue.lines)
      file.write("/glue/" + line.name, line.faces, {line.n_faces(), 9});
  }

  void write_field(const std::string &group, const StoredField &field,
                   const std::vector<double> &values)
  {
    const std::string name = group + "/" + field.name;
    const auto columns = static_cast<hsize_t>(field.columns);
    file.write(name, values, {values.size() / columns, columns});
    file.write_attribute(name, "unit", std::string(field.unit));
  }

  void write_record()
  {
    // Room for the texts that change at the end of the run: they are renewed in their place.
    for (const auto &[name, text] : record_lines(record))
      file.write_attribute("/record", name, text, 200);
    file.flush();
  }

  // A kill while the file is being written can damage what is being written, and the list of steps
  // holds all of them. So the groups of the next steps are made and flushed well before they are
  // filled, and filling one touches no other.
  void make_step_groups()
  {
    for (const std::size_t end = groups + steps_ahead; groups < end; ++groups)
      file.make_group(group_of(groups));
    file.flush();
  }
};

ResultsWriter::ResultsWriter(const std::string &folder, const MeshData &mesh, const Record &record,
                             bool overwrite)
{
  check_mesh(mesh);
  make_folder(folder, overwrite);
  // An .xdmf of the earlier run would name data that are about to go.
  std::error_code ignored;
  fs::remove(fs::path(folder) / "results.xdmf", ignored);
  state_.reset(new State{folder,
                         mesh.n_nodes(),
                         mesh.glue.n_nodes(),
                         xdmf_mesh(mesh),
                         record,
                         hdf5::File::create((fs::path(folder) / data_file).string()),
                         {},
                         0});
  hdf5::File &file = state_->file;
  file.write_attribute("/", "format", std::string("overbend results"));
  file.write_attribute("/", "format number", static_cast<double>(format_number));
  state_->write_mesh(mesh);
  file.make_large_group("/steps", 16 * steps_ahead);
  file.make_group("/readings");
  file.make_group("/record");
  file.write("/record/case_text", record.case_text);
  state_->write_record();
  state_->make_step_groups();
}

ResultsWriter::~ResultsWriter() = default;

std::size_t ResultsWriter::steps() const
{
  return state_->steps.size();
}

void ResultsWriter::write_step(const StepFields &fields)
{
  State &state = *state_;
  const std::size_t n = state.n_nodes;
  const auto &names = stored_fields();
  if (!std::isfinite(fields.time))
    throw std::invalid_argument("the time of a step is not finite");
  // All checks come before the first byte: a refused step leaves nothing behind.
  std::vector<std::vector<double>> stored;
  stored.push_back(checked(fields.displacement, 3 * n, names[0]));
  stored.push_back(checked(fields.temperature, n, names[1], 1, -273.15));
  stored.push_back(checked(fields.moisture, n, names[2], 100));
  for (std::size_t c = 0; c < 6; ++c)
    stored.push_back(checked(fields.stress[c], n, names[3 + c], 1e-6));
  stored.push_back(checked(fields.stress_along_grain, n, names[9], 1e-6));
  stored.push_back(checked(fields.use_of_strength, n, names[10]));
  stored.push_back(checked(fields.slip, n, names[11], 1e3));
  const std::size_t glued = state.n_glue;
  const auto &glue_names = stored_glue_fields();
  const std::array<std::vector<double>, 3> stored_glue = {
      checked(fields.glue_displacement, 3 * glued, glue_names[0]),
      checked(fields.glue_slip, glued, glue_names[1], 1e3),
      checked(fields.glue_shear, glued, glue_names[2], 1e-6)};

  const std::string group = group_of(state.steps.size());
  if (state.steps.size() == state.groups)
    state.make_step_groups();
  for (std::size_t f = 0; f < names.size(); ++f)
    state.write_field(group, names[f], stored[f]);
  for (std::size_t f = 0; glued > 0 && f < glue_names.size(); ++f)
    state.write_field(group, glue_names[f], stored_glue[f]);
  // The mark of a complete step reaches the disk after what it marks.
  state.file.flush();
  state.file.write_attribute(group, "time", fields.time);
  state.file.write_attribute(group, "pass", double(fields.on_bench.pass));
  state.file.write_attribute(group, "heated", fields.on_bench.heated ? 1. : 0.);
  state.file.write_attribute(group, "clamped", fields.on_bench.clamped ? 1. : 0.);
  state.file.write_attribute(group, "phase", fields.phase);
  state.file.flush();
  state.steps.push_back({group, fields.time / 3600});
  write_text_file(state.path("results.xdmf"), xdmf_text(state.shown, state.steps, data_file));
}

void ResultsWriter::write_readings(const ReadingsTable &table)
{
  table.check();
  hdf5::File &file = state_->file;
  for (const std::string &old : file.members("/readings"))
    file.remove("/readings/" + old);
  std::vector<double> times;
  std::string phases, moments;
  for (const ReadingsTable::Row &row : table.rows) {
    times.push_back(row.time);
    phases += row.phase + "\n";
    moments += row.moment + "\n";
  }
  const hsize_t rows = table.rows.size();
  file.write("/readings/time", times, {rows, 1}, true);
  file.write_attribute("/readings/time", "unit", std::string("s"));
  file.write("/readings/phase", phases);
  file.write("/readings/moment", moments);
  for (std::size_t c = 0; c < table.columns.size(); ++c) {
    std::vector<double> values;
    for (const ReadingsTable::Row &row : table.rows)
      values.push_back(row.values[c].value_or(std::numeric_limits<double>::quiet_NaN()));
    // A '/' in a name would make groups of it.
    std::string name = table.columns[c].name;
    std::replace(name.begin(), name.end(), '/', '|');
    file.write("/readings/" + name, values, {rows, 1}, true);
    file.write_attribute("/readings/" + name, "unit",
                         std::string(si_unit(table.columns[c].quantity)));
  }
  file.flush();
  write_text_file(state_->path("readings.csv"), to_csv(table, state_->record));
}

void ResultsWriter::finish(const Record &record)
{
  state_->record = record;
  state_->write_record();
  for (std::size_t unused = state_->steps.size(); unused < state_->groups; ++unused)
    state_->file.remove(group_of(unused));
  state_->file.close();
}
} // namespace overbend::solver
