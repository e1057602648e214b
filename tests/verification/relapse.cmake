# SPDX-License-Identifier: GPL-3.0-or-later
# Whole coarse necks after the bench: months of winter air, and relapse under strings.
# Not adapted yet to the planner of passes, the graded section and open slots, or not run since:
# to be gone through and put back into the gate.
overbend_test(test_winter
  SLOW Winter.Moves* Winter.Twists*
  SOURCES winter_test.cc
  LIBRARIES overbend_test_necks)
# Not adapted yet to the planner of passes, the graded section and open slots, or not run since:
# to be gone through and put back into the gate.
overbend_test(test_relapse
  SLOW *
  SOURCES guard_neck.cc relapse_test.cc hot_evenings_test.cc
  LIBRARIES overbend_solver)
# How the found shape of a whole coarse neck was reached, with its water.
overbend_test(test_found_neck
  SOURCES guard_neck.cc found_neck_test.cc
  LIBRARIES overbend_solver)
