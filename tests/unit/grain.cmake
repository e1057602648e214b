# SPDX-License-Identifier: GPL-3.0-or-later
overbend_test(unit_grain
  SOURCES strips.cc swelling_field.cc
  LIBRARIES overbend_solver)
