# SPDX-License-Identifier: GPL-3.0-or-later
# Rods, pads, stops and strings of the bench against closed forms.
overbend_test(test_bench
  SOURCES bench_beam.cc bench_rod_test.cc bench_stops_test.cc bench_strings_test.cc
  LIBRARIES overbend_test_beams)
overbend_test(test_bonded_bar
  SOURCES bench_bar_test.cc
  LIBRARIES overbend_test_necks)
overbend_test(test_device
  SOURCES device_neck.cc guard_neck.cc device_balance_test.cc device_pull_test.cc
  LIBRARIES overbend_solver)
