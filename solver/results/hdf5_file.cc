// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/results/hdf5_file.h"

#include "solver/results/file_error.h"

#include <algorithm>
#include <array>

namespace overbend::solver::hdf5
{
namespace
{
// Rows of a chunk: measured on results of 100,000 nodes, see DEVELOPERS.md.
constexpr hsize_t chunk_rows = 16384;

// The innermost entry of the error stack holds the system's own words.
herr_t innermost(unsigned depth, const H5E_error2_t *entry, void *text)
{
  if (depth == 0 && entry->desc != nullptr)
    *static_cast<std::string *>(text) = entry->desc;
  return 0;
}

std::string reason()
{
  std::string text;
  H5Ewalk2(H5E_DEFAULT, H5E_WALK_UPWARD, innermost, &text);
  const std::string key = "error message = '";
  const std::size_t from = text.find(key);
  if (from != std::string::npos) {
    const std::size_t start = from + key.size();
    text = text.substr(start, text.find('\'', start) - start);
  }
  return text.empty() ? "no reason given" : text;
}

Handle text_type(std::size_t size)
{
  Handle type(H5Tcopy(H5T_C_S1), H5Tclose);
  H5Tset_size(type, std::max<std::size_t>(size, 1));
  H5Tset_cset(type, H5T_CSET_UTF8);
  H5Tset_strpad(type, H5T_STR_NULLPAD);
  return type;
}

// At the end of the program the library closes what is still open, also a file that could not be
// written. It has to be told before anything else is asked of it; what is whole is closed by us.
[[maybe_unused]] const herr_t left_alone_at_exit = H5dont_atexit();

// The library prints its error stack by default; here every error becomes an exception instead.
void silence()
{
  H5Eset_auto2(H5E_DEFAULT, nullptr, nullptr);
}
} // namespace

template <typename Id>
Id File::check(Id status, const std::string &what)
{
  if (status >= 0)
    return status;
  const std::string why = reason(); // before anything else is asked of the library
  file_.leave_open();
  throw FileError(path_, what + " (" + why + ")",
                  "check the free space on the disk and the rights of the folder");
}

File::File(std::string path, hid_t id) : path_(std::move(path)), file_(id, H5Fclose) {}

File File::create(const std::string &path)
{
  silence();
  // No lock: the steps that are flushed may be looked at while the run goes on.
  const Handle access(H5Pcreate(H5P_FILE_ACCESS), H5Pclose);
  H5Pset_file_locking(access, false, true);
  File file(path, H5Fcreate(path.c_str(), H5F_ACC_TRUNC, H5P_DEFAULT, access));
  file.check<hid_t>(file.file_, "cannot be made");
  return file;
}

File File::open(const std::string &path)
{
  silence();
  File file(path, H5Fopen(path.c_str(), H5F_ACC_RDONLY, H5P_DEFAULT));
  if (file.file_ < 0)
    throw FileError(path, "cannot be opened (" + reason() + ")", "check that it is a results file");
  return file;
}

void File::make_group(const std::string &name)
{
  const Handle creation(H5Pcreate(H5P_GROUP_CREATE), H5Pclose);
  H5Pset_link_creation_order(creation, H5P_CRT_ORDER_TRACKED); // asks for this kind of group
  H5Pset_link_phase_change(creation, 1000, 900);
  H5Pset_est_link_info(creation, 16, 20);
  H5Pset_obj_track_times(creation, false);
  const Handle group(check(H5Gcreate2(file_, name.c_str(), H5P_DEFAULT, creation, H5P_DEFAULT),
                           "cannot hold the group " + name),
                     H5Gclose);
}

void File::make_large_group(const std::string &name, std::size_t members)
{
  const std::size_t bytes_a_name = 16;
  const Handle group(check(H5Gcreate1(file_, name.c_str(), members * bytes_a_name),
                           "cannot hold the group " + name),
                     H5Gclose);
}

void File::write_data(const std::string &name, const void *values, Shape shape, hid_t memory_type,
                      hid_t file_type)
{
  const int rank = shape.columns > 1 ? 2 : 1;
  const std::array<hsize_t, 2> size = {shape.rows, shape.columns};
  const std::array<hsize_t, 2> chunk = {std::clamp<hsize_t>(shape.rows, 1, chunk_rows),
                                        shape.columns};
  const Handle space(H5Screate_simple(rank, size.data(), nullptr), H5Sclose);
  const Handle layout(H5Pcreate(H5P_DATASET_CREATE), H5Pclose);
  H5Pset_chunk(layout, rank, chunk.data());
  H5Pset_shuffle(layout);
  H5Pset_deflate(layout, 1);
  H5Pset_obj_track_times(layout, false); // no clock in the bytes
  const std::string what = "cannot hold " + name;
  Handle data(
      check(H5Dcreate2(file_, name.c_str(), file_type, space, H5P_DEFAULT, layout, H5P_DEFAULT),
            what),
      H5Dclose);
  check(H5Dwrite(data, memory_type, H5S_ALL, H5S_ALL, H5P_DEFAULT, values), what);
  check(data.reset(), what); // chunks go to the disk only now
}

void File::write(const std::string &name, const std::vector<double> &values, Shape shape, bool wide)
{
  write_data(name, values.data(), shape, H5T_NATIVE_DOUBLE, wide ? H5T_IEEE_F64LE : H5T_IEEE_F32LE);
}

void File::write(const std::string &name, const std::vector<int> &values, Shape shape)
{
  write_data(name, values.data(), shape, H5T_NATIVE_INT, H5T_STD_I32LE);
}

void File::write(const std::string &name, const std::string &text)
{
  const Handle type = text_type(text.size());
  const Handle space(H5Screate(H5S_SCALAR), H5Sclose);
  const Handle layout(H5Pcreate(H5P_DATASET_CREATE), H5Pclose);
  H5Pset_obj_track_times(layout, false);
  const std::string what = "cannot hold " + name;
  Handle data(
      check(H5Dcreate2(file_, name.c_str(), type, space, H5P_DEFAULT, layout, H5P_DEFAULT), what),
      H5Dclose);
  check(H5Dwrite(data, type, H5S_ALL, H5S_ALL, H5P_DEFAULT, text.empty() ? "" : text.data()), what);
  check(data.reset(), what);
}

Handle File::open_object(const std::string &name)
{
  return Handle(check(H5Oopen(file_, name.c_str(), H5P_DEFAULT), "has no " + name), H5Oclose);
}

void File::write_attribute(const std::string &object, const std::string &name,
                           const std::string &text, std::size_t room)
{
  const std::string what = "cannot hold the attribute " + name;
  const Handle owner = open_object(object);
  Handle attribute;
  std::string padded = text;
  if (H5Aexists(owner, name.c_str()) > 0) {
    attribute = Handle(check(H5Aopen(owner, name.c_str(), H5P_DEFAULT), what), H5Aclose);
    const Handle type(H5Aget_type(attribute), H5Tclose);
    padded.resize(H5Tget_size(type), '\0');
    check(H5Awrite(attribute, type, padded.data()), what);
    return;
  }
  padded.resize(std::max({text.size(), room, std::size_t{1}}), '\0');
  const Handle type = text_type(padded.size());
  const Handle space(H5Screate(H5S_SCALAR), H5Sclose);
  attribute =
      Handle(check(H5Acreate2(owner, name.c_str(), type, space, H5P_DEFAULT, H5P_DEFAULT), what),
             H5Aclose);
  check(H5Awrite(attribute, type, padded.data()), what);
}

void File::write_attribute(const std::string &object, const std::string &name, double value)
{
  const Handle space(H5Screate(H5S_SCALAR), H5Sclose);
  const Handle owner = open_object(object);
  const std::string what = "cannot hold the attribute " + name;
  const Handle attribute(
      check(H5Acreate2(owner, name.c_str(), H5T_IEEE_F64LE, space, H5P_DEFAULT, H5P_DEFAULT), what),
      H5Aclose);
  check(H5Awrite(attribute, H5T_NATIVE_DOUBLE, &value), what);
}

void File::remove(const std::string &name)
{
  if (holds(name))
    check(H5Ldelete(file_, name.c_str(), H5P_DEFAULT), "cannot renew " + name);
}

void File::flush()
{
  check(H5Fflush(file_, H5F_SCOPE_LOCAL), "cannot be written to the disk");
}

void File::close()
{
  check(file_.reset(), "cannot be closed");
}
} // namespace overbend::solver::hdf5
