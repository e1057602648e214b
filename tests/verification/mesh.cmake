# SPDX-License-Identifier: GPL-3.0-or-later
find_library(OVERBEND_GMSH gmsh REQUIRED)
overbend_test(mesh_tetrahedra_test SOURCES mesh_tetrahedra_test.cc LIBRARIES overbend_mesh ${OVERBEND_GMSH})
overbend_test(test_mesh_edges
  SOURCES mesh_edges_test.cc
  LIBRARIES overbend_test_necks)
