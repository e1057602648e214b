// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/results/file_error.h"
#include "solver/results/hdf5_file.h"

namespace overbend::solver::hdf5
{
namespace
{
[[noreturn]] void unreadable(const std::string &path, const std::string &what)
{
  throw FileError(path, "cannot read " + what, "the file is damaged or not a results file");
}

Handle opened(const std::string &path, hid_t id, Handle::Close close, const std::string &what)
{
  if (id < 0)
    unreadable(path, what);
  return Handle(id, close);
}

std::size_t points_in(hid_t data)
{
  const Handle space(H5Dget_space(data), H5Sclose);
  const hssize_t points = H5Sget_simple_extent_npoints(space);
  return points < 0 ? 0 : static_cast<std::size_t>(points);
}

// Text of fixed size, padded by zeros.
std::string without_padding(std::string text)
{
  text.resize(text.find_last_not_of('\0') + 1);
  return text;
}
} // namespace

Handle File::open_data(const std::string &name) const
{
  return opened(path_, H5Dopen2(file_, name.c_str(), H5P_DEFAULT), H5Dclose, name);
}

std::vector<double> File::read_doubles(const std::string &name) const
{
  const Handle data = open_data(name);
  std::vector<double> values(points_in(data));
  if (H5Dread(data, H5T_NATIVE_DOUBLE, H5S_ALL, H5S_ALL, H5P_DEFAULT, values.data()) < 0)
    unreadable(path_, name);
  return values;
}

std::vector<int> File::read_ints(const std::string &name) const
{
  const Handle data = open_data(name);
  std::vector<int> values(points_in(data));
  if (H5Dread(data, H5T_NATIVE_INT, H5S_ALL, H5S_ALL, H5P_DEFAULT, values.data()) < 0)
    unreadable(path_, name);
  return values;
}

std::string File::read_text(const std::string &name) const
{
  const Handle data = open_data(name);
  const Handle type(H5Dget_type(data), H5Tclose);
  std::string text(H5Tget_size(type), '\0');
  if (H5Dread(data, type, H5S_ALL, H5S_ALL, H5P_DEFAULT, text.data()) < 0)
    unreadable(path_, name);
  return without_padding(text);
}

std::string File::read_text_attribute(const std::string &object, const std::string &name) const
{
  const std::string what = "attribute " + name + " of " + object;
  const Handle owner = opened(path_, H5Oopen(file_, object.c_str(), H5P_DEFAULT), H5Oclose, object);
  const Handle attribute = opened(path_, H5Aopen(owner, name.c_str(), H5P_DEFAULT), H5Aclose, what);
  const Handle type(H5Aget_type(attribute), H5Tclose);
  std::string text(H5Tget_size(type), '\0');
  if (H5Aread(attribute, type, text.data()) < 0)
    unreadable(path_, what);
  return without_padding(text);
}

double File::read_double_attribute(const std::string &object, const std::string &name) const
{
  const std::string what = "attribute " + name + " of " + object;
  const Handle owner = opened(path_, H5Oopen(file_, object.c_str(), H5P_DEFAULT), H5Oclose, object);
  const Handle attribute = opened(path_, H5Aopen(owner, name.c_str(), H5P_DEFAULT), H5Aclose, what);
  double value = 0;
  if (H5Aread(attribute, H5T_NATIVE_DOUBLE, &value) < 0)
    unreadable(path_, what);
  return value;
}

std::vector<std::string> File::members(const std::string &group) const
{
  const Handle opened_group =
      opened(path_, H5Gopen2(file_, group.c_str(), H5P_DEFAULT), H5Gclose, group);
  std::vector<std::string> names;
  const auto add = [](hid_t, const char *name, const H5L_info_t *, void *list) -> herr_t {
    static_cast<std::vector<std::string> *>(list)->emplace_back(name);
    return 0;
  };
  if (H5Literate(opened_group, H5_INDEX_NAME, H5_ITER_INC, nullptr, add, &names) < 0)
    unreadable(path_, group);
  return names;
}

std::vector<std::string> File::attributes(const std::string &object) const
{
  const Handle owner = opened(path_, H5Oopen(file_, object.c_str(), H5P_DEFAULT), H5Oclose, object);
  std::vector<std::string> names;
  const auto add = [](hid_t, const char *name, const H5A_info_t *, void *list) -> herr_t {
    static_cast<std::vector<std::string> *>(list)->emplace_back(name);
    return 0;
  };
  if (H5Aiterate2(owner, H5_INDEX_NAME, H5_ITER_INC, nullptr, add, &names) < 0)
    unreadable(path_, object);
  return names;
}

bool File::can_open(const std::string &name) const
{
  if (!holds(name))
    return false;
  const Handle object(H5Oopen(file_, name.c_str(), H5P_DEFAULT), H5Oclose);
  return object >= 0;
}

bool File::holds(const std::string &name) const
{
  return H5Lexists(file_, name.c_str(), H5P_DEFAULT) > 0;
}
} // namespace overbend::solver::hdf5
