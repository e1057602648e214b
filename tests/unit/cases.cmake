# SPDX-License-Identifier: GPL-3.0-or-later
overbend_test(unit_cases QUICK
  SOURCES cases_units.cc cases_suggest.cc cases_variants.cc cases_reading.cc cases_phases.cc cases_manual.cc
          cases_names.cc cases_climate.cc cases_laminations.cc cases_fret_heights.cc cases_device.cc cases_set_up.cc
  LIBRARIES overbend_cases)

add_executable(overbend_manual write_manual.cc)
target_link_libraries(overbend_manual PRIVATE overbend_flags overbend_cases)
