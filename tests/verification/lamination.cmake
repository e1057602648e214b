# SPDX-License-Identifier: GPL-3.0-or-later
# Shafts glued up from strips.
overbend_test(test_lamination
  SOURCES grain_strip.cc glued_up.cc lamination_stiffness_test.cc lamination_twist_test.cc
  LIBRARIES overbend_test_beams)
overbend_test(test_lamination_neck
  SOURCES guard_neck.cc lamination_neck_test.cc
  LIBRARIES overbend_solver)
