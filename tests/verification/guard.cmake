# SPDX-License-Identifier: GPL-3.0-or-later
# Guards: quick tests on a coarse whole neck that turn red for the gross faults of tests/sabotage.sh.
overbend_test(test_guard
  SOURCES guard_neck.cc guard_bench_test.cc guard_history_test.cc guard_plan_test.cc
  LIBRARIES overbend_solver)
# The same coarse neck with a seized rod and with a stop block.
overbend_test(test_rod_and_block
  SOURCES guard_neck.cc guard_rod_test.cc guard_block_test.cc
  LIBRARIES overbend_solver)
