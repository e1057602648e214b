// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <iosfwd>
#include <string>
#include <vector>

namespace overbend::viz
{
struct VaryOptions
{
  std::string program; // this program, to plan each case with
  std::string case_file, folder;
  std::vector<std::string> set; // cases::parse_variation
  int at_once = 2;              // plans that run at the same time, on one thread each
  bool only_list = false;       // print the commands, run nothing
};

// Plans a case once for each combination of some entries' values. The folder holds each case, the
// results of its plan and a table of all as text, CSV and page. Cases that are planned already are
// not planned again, so that an interrupted study goes on, and one whose commands ran elsewhere is
// gathered. One that ends without a plan is in the table with its reason. A folder that holds
// anything but this study is left alone.
//
// Throws cases::CaseError for what cannot be varied or read, solver::FileError for what cannot be
// written.
void vary(const VaryOptions &options, std::ostream &out);
} // namespace overbend::viz
