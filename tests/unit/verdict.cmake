# SPDX-License-Identifier: GPL-3.0-or-later
overbend_test(test_verdict
  SOURCES
    ${CMAKE_CURRENT_SOURCE_DIR}/verdict_before.cc
    ${CMAKE_CURRENT_SOURCE_DIR}/verdict_lift.cc
    ${CMAKE_CURRENT_SOURCE_DIR}/verdict_kinds.cc
    ${CMAKE_CURRENT_SOURCE_DIR}/verdict_after.cc
    ${CMAKE_CURRENT_SOURCE_DIR}/verdict_job.cc
    ${CMAKE_CURRENT_SOURCE_DIR}/verdict_water.cc
    ${CMAKE_CURRENT_SOURCE_DIR}/verdict_readings.cc
    ${CMAKE_CURRENT_SOURCE_DIR}/free_warming.cc
    ${CMAKE_CURRENT_SOURCE_DIR}/plan_date.cc
    ${CMAKE_CURRENT_SOURCE_DIR}/shop_words.cc
    ${CMAKE_CURRENT_SOURCE_DIR}/step_fields.cc
    ${CMAKE_CURRENT_SOURCE_DIR}/stress_means.cc
  LIBRARIES overbend_solver)

overbend_test(test_plan_words QUICK
  SOURCES
    ${CMAKE_CURRENT_SOURCE_DIR}/plan_words.cc
    ${CMAKE_CURRENT_SOURCE_DIR}/plan_passes.cc
    ${CMAKE_CURRENT_SOURCE_DIR}/what_if.cc
    ${CMAKE_CURRENT_SOURCE_DIR}/invented_plan.cc
  LIBRARIES overbend_solver nlohmann_json::nlohmann_json)
