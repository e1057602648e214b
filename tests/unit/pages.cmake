# SPDX-License-Identifier: GPL-3.0-or-later
overbend_test(test_pages
  SOURCES
    ${CMAKE_CURRENT_SOURCE_DIR}/pages.cc
    ${CMAKE_CURRENT_SOURCE_DIR}/invented_plan.cc
  LIBRARIES overbend_viz nlohmann_json::nlohmann_json)
