# SPDX-License-Identifier: GPL-3.0-or-later
overbend_test(mesh_random_necks_test SOURCES mesh_random_necks_test.cc LIBRARIES overbend_mesh)
