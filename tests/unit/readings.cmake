# SPDX-License-Identifier: GPL-3.0-or-later
overbend_test(test_bench_readings QUICK
  SOURCES
    ${CMAKE_CURRENT_SOURCE_DIR}/readings_bow.cc
    ${CMAKE_CURRENT_SOURCE_DIR}/readings_edge.cc
    ${CMAKE_CURRENT_SOURCE_DIR}/readings_twist_kink.cc
    ${CMAKE_CURRENT_SOURCE_DIR}/stage_readings.cc
    ${CMAKE_CURRENT_SOURCE_DIR}/fret_surface.cc
    ${CMAKE_CURRENT_SOURCE_DIR}/neck_angle.cc
  LIBRARIES overbend_solver)
