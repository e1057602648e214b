# SPDX-License-Identifier: GPL-3.0-or-later
# Headers that nearly every source beside deal.II includes, parsed once. Measured: a source of the
# solver takes half the processor time to compile (4.8 s became 1.9, 7.7 became 3.8, 6.7 became 3.1),
# a test of it two thirds (7.3 s became 4.7). Sources without deal.II gain next to nothing (1.3 s
# became 1.0, tests nothing) and do without.
# A source still includes what it uses: the presets `debug` and `sanitize` build without these.

set(overbend_common_headers
  <algorithm> <array> <cmath> <filesystem> <functional> <limits> <map> <memory> <optional> <set>
  <sstream> <stdexcept> <string> <utility> <vector>
  <deal.II/base/point.h> <deal.II/base/symmetric_tensor.h>)

# overbend_precompile(kind [LIBRARIES ...] HEADERS ...): makes headers for several targets.
function(overbend_precompile kind)
  cmake_parse_arguments(P "" "" "LIBRARIES;HEADERS" ${ARGN})
  set(source ${CMAKE_BINARY_DIR}/precompiled_${kind}.cc)
  file(CONFIGURE OUTPUT ${source} CONTENT "// Only its headers matter.\n")
  add_library(overbend_precompiled_${kind} OBJECT ${source})
  target_link_libraries(overbend_precompiled_${kind}
    PRIVATE overbend_flags overbend_dealii ${P_LIBRARIES})
  target_include_directories(overbend_precompiled_${kind} SYSTEM PRIVATE ${DEAL_II_INCLUDE_DIRS})
  target_precompile_headers(overbend_precompiled_${kind} PRIVATE ${P_HEADERS})
  overbend_show_precompiled_to_ccache(overbend_precompiled_${kind})
endfunction()

# overbend_use_precompiled(target kind): kind is `solver` or `tests`.
function(overbend_use_precompiled target kind)
  if(OVERBEND_PRECOMPILED_HEADERS)
    target_precompile_headers(${target} REUSE_FROM overbend_precompiled_${kind})
    overbend_show_precompiled_to_ccache(${target})
  endif()
endfunction()

# ccache asks for this of g++: the preprocessed text then names the precompiled header.
function(overbend_show_precompiled_to_ccache target)
  target_compile_options(${target} PRIVATE $<$<CXX_COMPILER_ID:GNU>:-fpch-preprocess>)
endfunction()

if(OVERBEND_PRECOMPILED_HEADERS)
  overbend_precompile(solver HEADERS ${overbend_common_headers})
  if(OVERBEND_TESTS)
    find_package(GTest REQUIRED)
    # gmock before deal.II, one of whose macros has the name of a function of gmock.
    overbend_precompile(tests LIBRARIES GTest::gtest GTest::gmock
      HEADERS <gmock/gmock.h> <gtest/gtest.h> ${overbend_common_headers})
  endif()
endif()
