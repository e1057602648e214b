# SPDX-License-Identifier: GPL-3.0-or-later
overbend_test(test_moisture
  SOURCES moisture_slab_test.cc moisture_balance_test.cc
  LIBRARIES overbend_solver)
