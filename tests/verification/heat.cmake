# SPDX-License-Identifier: GPL-3.0-or-later
overbend_test(test_sampling
  SOURCES heat_sampling_test.cc
  LIBRARIES overbend_solver)
overbend_test(test_heat
  SOURCES heat_slab_test.cc heat_handbook_test.cc heat_order_test.cc
          heat_bar_test.cc heat_history_test.cc heat_section_test.cc
          section_by_differences.cc
  LIBRARIES overbend_solver)
# A whole coarse neck and what its thermometers show.
overbend_test(test_heated_neck
  SOURCES guard_neck.cc heated_neck_test.cc heat_choice_test.cc
  LIBRARIES overbend_solver)
