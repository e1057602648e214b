# SPDX-License-Identifier: GPL-3.0-or-later
overbend_test(robustness_random_cases
  SOURCES random_cases_test.cc
  LIBRARIES overbend_test_necks)
