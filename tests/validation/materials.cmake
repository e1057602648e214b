# SPDX-License-Identifier: GPL-3.0-or-later
overbend_test(test_validation_creep QUICK
  SOURCES
    beam_section.cc
    creep_in_climates_test.cc
    creep_of_spruce_test.cc
    long_creep_test.cc
    moisture_of_spruce_test.cc
  LIBRARIES overbend_materials)
