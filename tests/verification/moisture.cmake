# SPDX-License-Identifier: GPL-3.0-or-later
overbend_test(test_moisture
  SOURCES moisture_slab_test.cc moisture_balance_test.cc moisture_swelling_test.cc
          moisture_climate_test.cc
  LIBRARIES overbend_test_beams)
# Whole coarse necks: the rod, and what relapses more than what.
# Those in the slow rung were not run since the section is graded.
overbend_test(test_moist_neck
  SLOW Relapse.ADamp* DaysOnTour.*
  SOURCES guard_neck.cc moisture_neck_test.cc moisture_past_test.cc
          moisture_surface_test.cc moisture_set_test.cc moisture_week_test.cc
  LIBRARIES overbend_solver)
