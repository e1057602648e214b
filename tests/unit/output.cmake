# SPDX-License-Identifier: GPL-3.0-or-later
overbend_test(test_output QUICK
  SOURCES
    ${CMAKE_CURRENT_SOURCE_DIR}/output_results.cc
    ${CMAKE_CURRENT_SOURCE_DIR}/output_progress.cc
    ${CMAKE_CURRENT_SOURCE_DIR}/output_endings.cc
    ${CMAKE_CURRENT_SOURCE_DIR}/output_survival.cc
    ${CMAKE_CURRENT_SOURCE_DIR}/output_replace.cc
    ${CMAKE_CURRENT_SOURCE_DIR}/output_tables.cc
  LIBRARIES overbend_solver)

overbend_test(test_opener QUICK
  SOURCES ${CMAKE_CURRENT_SOURCE_DIR}/output_opener.cc
  LIBRARIES overbend_viz)

overbend_test(test_include_directions QUICK
  SOURCES ${CMAKE_CURRENT_SOURCE_DIR}/include_directions.cc)
