# SPDX-License-Identifier: GPL-3.0-or-later
add_library(overbend_test_beams STATIC beam_model.cc beam.cc block_model.cc)
target_link_libraries(overbend_test_beams PUBLIC overbend_solver)

overbend_test(test_composite
  SOURCES solver_composite_test.cc
  LIBRARIES overbend_test_beams)
overbend_test(test_fret_slots
  SOURCES solver_fret_slots_test.cc
  LIBRARIES overbend_test_beams)
overbend_test(test_locked_ends
  SOURCES solver_locked_ends_test.cc
  LIBRARIES overbend_test_beams)
overbend_test(test_patch QUICK
  SOURCES solver_patch_test.cc
  LIBRARIES overbend_test_beams)
overbend_test(test_convergence
  SOURCES solver_convergence_test.cc
  LIBRARIES overbend_test_beams)
overbend_test(test_beam
  SOURCES solver_beam_test.cc
  LIBRARIES overbend_test_beams)
overbend_test(test_torsion
  SOURCES solver_torsion_test.cc
  LIBRARIES overbend_test_beams)
overbend_test(test_creep
  SOURCES solver_creep_test.cc
  LIBRARIES overbend_test_beams)
overbend_test(test_cycle
  SOURCES solver_cycle_test.cc
  LIBRARIES overbend_test_beams)
overbend_test(test_slip
  SOURCES solver_slip_test.cc
  LIBRARIES overbend_test_beams)
overbend_test(test_contact
  SOURCES solver_contact_test.cc
  LIBRARIES overbend_test_beams)
overbend_test(test_energy
  SOURCES solver_energy_test.cc
  LIBRARIES overbend_test_beams)
overbend_test(test_mirror
  SOURCES solver_mirror_test.cc
  LIBRARIES overbend_test_beams)
overbend_test(test_units
  SOURCES solver_units_test.cc
  LIBRARIES overbend_test_beams)
