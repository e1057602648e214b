# SPDX-License-Identifier: GPL-3.0-or-later
overbend_test(test_grain
  SOURCES grain_strip.cc grain_run_out_test.cc grain_angle_ply_test.cc grain_side_by_side_test.cc
  LIBRARIES overbend_test_beams)
