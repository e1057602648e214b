# SPDX-License-Identifier: GPL-3.0-or-later
overbend_test(test_sampling
  SOURCES heat_sampling_test.cc beam_model.cc
  LIBRARIES overbend_solver)
