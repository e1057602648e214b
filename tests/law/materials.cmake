# SPDX-License-Identifier: GPL-3.0-or-later
overbend_test(test_law QUICK
  SOURCES
    creep_test.cc
    damp_air_test.cc
    moisture_creep_test.cc
    strained_swelling_test.cc
    swelling_test.cc
    glue_law_test.cc
    heat_test.cc
    strength_test.cc
    tables_test.cc
    glue_update_test.cc
    wood_law_test.cc
    wood_moduli_test.cc
  LIBRARIES overbend_materials)
