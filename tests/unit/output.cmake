# SPDX-License-Identifier: GPL-3.0-or-later
if(NOT TARGET overbend_version)
  include(${CMAKE_SOURCE_DIR}/solver/version.cmake)
endif()
set(output_sources file_error.h text_file.cc record.cc readings_table.cc hdf5_file.cc hdf5_read.cc
  results.cc results_reader.cc xdmf.cc progress.cc timing.cc)
list(TRANSFORM output_sources PREPEND ${CMAKE_SOURCE_DIR}/solver/)
overbend_test(test_output
  SOURCES
    ${output_sources}
    ${CMAKE_CURRENT_SOURCE_DIR}/output_results.cc
    ${CMAKE_CURRENT_SOURCE_DIR}/output_progress.cc
    ${CMAKE_CURRENT_SOURCE_DIR}/output_survival.cc
    ${CMAKE_CURRENT_SOURCE_DIR}/output_tables.cc
  LIBRARIES overbend_dealii overbend_version)
target_include_directories(test_output SYSTEM PRIVATE ${DEAL_II_INCLUDE_DIRS})

overbend_test(test_opener
  SOURCES
    ${output_sources}
    ${CMAKE_CURRENT_SOURCE_DIR}/output_opener.cc
  LIBRARIES overbend_viz overbend_solver overbend_dealii overbend_version)
target_include_directories(test_opener SYSTEM PRIVATE ${DEAL_II_INCLUDE_DIRS})

overbend_test(test_include_directions
  SOURCES ${CMAKE_CURRENT_SOURCE_DIR}/include_directions.cc)
