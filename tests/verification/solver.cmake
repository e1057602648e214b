overbend_test(test_composite
  SOURCES solver_composite_test.cc beam_model.cc
  LIBRARIES overbend_solver)
