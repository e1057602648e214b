# SPDX-License-Identifier: GPL-3.0-or-later
find_package(PNG REQUIRED)
overbend_test(test_pictures
  SOURCES
    ${CMAKE_CURRENT_SOURCE_DIR}/pictures_test.cc
    ${CMAKE_CURRENT_SOURCE_DIR}/colour_scales_test.cc
    ${CMAKE_CURRENT_SOURCE_DIR}/film_times_test.cc
  LIBRARIES overbend_drawing PNG::PNG)
add_dependencies(test_pictures overbend_pictures)
