# SPDX-License-Identifier: GPL-3.0-or-later
overbend_test(robustness_cases QUICK
  SOURCES cases_bad.cc cases_files.cc cases_round_trip.cc
  LIBRARIES overbend_cases)
