// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <utility>
#include <vector>

// The record of a run: what every output carries, so that it can be repeated and traced.
namespace overbend::solver
{
struct Record
{
  std::string version;    // of the program
  std::string git_hash;   // of the source when it was built; "unknown" outside a checkout
  bool git_dirty = false; // the source differed from that commit
  std::string compiler;
  std::string build_type;
  std::string dealii_version, hdf5_version;
  std::string blas; // the library that was loaded, not the one it was linked with
  int threads = 1;
  std::string host_kind; // kind of machine, without its name
  std::string case_name; // file name without its folders
  std::string case_text; // verbatim
  std::string case_hash; // SHA-256 of case_text
  std::vector<std::pair<std::string, std::string>> table_hashes; // table name, SHA-256
  double wall_time = 0;                                          // s
  std::string exit_reason = "did not reach its end";
};

// Fills in everything the program knows about itself. wall_time and exit_reason stay at their
// defaults: they are set when the run ends, and a run that was killed keeps the default.
Record make_record(const std::string &case_file, const std::string &case_text,
                   const std::vector<std::pair<std::string, std::string>> &table_hashes,
                   int threads);

// The record as lines (name, text), without the case text, in a fixed order.
std::vector<std::pair<std::string, std::string>> record_lines(const Record &record);

// SHA-256 (FIPS 180-4) in hexadecimal, as `sha256sum` prints it.
std::string sha256(const std::string &text);

// The BLAS library that answers dgemm in this process: file name with its last folder, and what
// the library says of itself if it does.
std::string loaded_blas();
} // namespace overbend::solver
