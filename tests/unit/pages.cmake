# SPDX-License-Identifier: GPL-3.0-or-later
overbend_test(test_pages QUICK
  SOURCES
    ${CMAKE_CURRENT_SOURCE_DIR}/pages.cc
    ${CMAKE_CURRENT_SOURCE_DIR}/plots.cc
    ${CMAKE_CURRENT_SOURCE_DIR}/view.cc
    ${CMAKE_CURRENT_SOURCE_DIR}/edge_frame.cc
    ${CMAKE_CURRENT_SOURCE_DIR}/intake_sheet.cc
    ${CMAKE_CURRENT_SOURCE_DIR}/child_program.cc
    ${CMAKE_CURRENT_SOURCE_DIR}/damaged_plan.cc
    ${CMAKE_CURRENT_SOURCE_DIR}/slow_to_fast.cc
    ${CMAKE_CURRENT_SOURCE_DIR}/run_story.cc
    ${CMAKE_CURRENT_SOURCE_DIR}/invented_plan.cc
  LIBRARIES overbend_viz nlohmann_json::nlohmann_json)

# Not a test: pages for a look and for tests/browser/run.
add_executable(overbend_invented_pages
  ${CMAKE_CURRENT_SOURCE_DIR}/write_invented_pages.cc
  ${CMAKE_CURRENT_SOURCE_DIR}/invented_plan.cc)
target_link_libraries(overbend_invented_pages PRIVATE overbend_flags overbend_viz
  nlohmann_json::nlohmann_json)
