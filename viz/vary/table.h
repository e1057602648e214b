// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "viz/vary/member.h"

#include <string>
#include <vector>

// The table of a study: cases beside what their plans came to.
namespace overbend::viz
{
struct StudyTable
{
  std::vector<std::string> head;
  std::vector<std::vector<std::string>> rows;
};

// `varied`: names of the entries. Lengths in mm, temperatures in degC.
StudyTable study_table(const std::vector<std::string> &varied, const std::vector<Member> &members);

std::string as_text(const StudyTable &table);
std::string as_csv(const StudyTable &table);
std::string as_page(const StudyTable &table, const std::string &title);
} // namespace overbend::viz
