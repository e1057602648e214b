# SPDX-License-Identifier: GPL-3.0-or-later
overbend_test(unit_intake QUICK
  SOURCES intake_gaps.cc intake_asks.cc intake_file.cc
  LIBRARIES overbend_cases overbend_materials)
