// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <hdf5.h>

#include <string>
#include <utility>
#include <vector>

// A thin cover over the C interface of HDF5: handles that close themselves and errors that are
// sentences. Only for solver/results*.cc.
namespace overbend::solver::hdf5
{
class Handle
{
public:
  using Close = herr_t (*)(hid_t);
  Handle() = default;
  Handle(hid_t id, Close close) : id_(id), close_(close) {}
  Handle(Handle &&other) noexcept : id_(std::exchange(other.id_, -1)), close_(other.close_) {}
  Handle &operator=(Handle &&other) noexcept
  {
    std::swap(id_, other.id_);
    std::swap(close_, other.close_);
    return *this;
  }
  ~Handle() { reset(); }
  operator hid_t() const { return id_; }
  // Closes now; the status of the library. Nothing to close: 0.
  herr_t reset() { return id_ >= 0 ? close_(std::exchange(id_, -1)) : 0; }
  void leave_open() { id_ = -1; }

private:
  hid_t id_ = -1;
  Close close_ = nullptr;
};

// Values of one data set and how they are stored: rows x columns in row order. Floats and ints are
// little-endian, 32 bits (64 for `wide`), so that the same bytes come from every machine.
struct Shape
{
  hsize_t rows = 0, columns = 1;
};

// All functions: FileError on failure, with the reason the library found deepest (a full disk).
//
// A file that could not be written is left as it is on the disk, its steps up to the last flush
// readable, and is not closed any more: closing writes what is still in memory, and where that
// fails too the library (1.10, as packaged) reads memory that it has freed and crashes, then or
// when the program ends.
class File
{
public:
  static File create(const std::string &path); // an existing file is replaced
  static File open(const std::string &path);   // to read

  // A group that keeps the names of its few members in its own header: filling it changes nothing
  // else in the file.
  void make_group(const std::string &name);
  // A group of many members, with room for the names of so many from the start.
  void make_large_group(const std::string &name, std::size_t members);
  void write(const std::string &name, const std::vector<double> &values, Shape shape,
             bool wide = false);
  void write(const std::string &name, const std::vector<int> &values, Shape shape);
  void write(const std::string &name, const std::string &text);
  // Text: an attribute that is there already is overwritten in its place, cut to the room it has.
  void write_attribute(const std::string &object, const std::string &name, const std::string &text,
                       std::size_t room = 0);
  void write_attribute(const std::string &object, const std::string &name, double value);
  void remove(const std::string &name); // nothing there: nothing happens
  void flush();
  void close();

  std::vector<double> read_doubles(const std::string &name) const;
  std::vector<int> read_ints(const std::string &name) const;
  std::string read_text(const std::string &name) const;
  std::string read_text_attribute(const std::string &object, const std::string &name) const;
  double read_double_attribute(const std::string &object, const std::string &name) const;
  std::vector<std::string> members(const std::string &group) const;
  std::vector<std::string> attributes(const std::string &object) const;
  bool holds(const std::string &name) const;    // the name is there
  bool can_open(const std::string &name) const; // and what it names is too

private:
  File(std::string path, hid_t id);
  // Of writing: a failure is the end of the file.
  template <typename Id>
  Id check(Id status, const std::string &what);
  Handle open_object(const std::string &name);
  Handle open_data(const std::string &name) const;
  void write_data(const std::string &name, const void *values, Shape shape, hid_t memory_type,
                  hid_t file_type);

  std::string path_;
  Handle file_;
};
} // namespace overbend::solver::hdf5
