# SPDX-License-Identifier: GPL-3.0-or-later
# Target overbend_version: the header solver/version.h with version, commit and compiler, written
# anew at each build (not at configure time, when the commit may be an older one), and the
# libraries that solver/results/record.cc needs. Included by solver/CMakeLists.txt and, run as a script
# (-DSOURCE_DIR -DOUTPUT ...), the writer of the header itself.
if(CMAKE_SCRIPT_MODE_FILE)
  find_package(Git QUIET)
  set(OVERBEND_GIT_HASH "unknown")
  set(OVERBEND_GIT_DIRTY false)
  if(GIT_FOUND)
    execute_process(COMMAND ${GIT_EXECUTABLE} -C ${SOURCE_DIR} rev-parse --short=12 HEAD
      OUTPUT_VARIABLE hash OUTPUT_STRIP_TRAILING_WHITESPACE RESULT_VARIABLE failed ERROR_QUIET)
    if(NOT failed)
      set(OVERBEND_GIT_HASH ${hash})
      execute_process(COMMAND ${GIT_EXECUTABLE} -C ${SOURCE_DIR} status --porcelain
        --untracked-files=no OUTPUT_VARIABLE changes ERROR_QUIET)
      if(changes)
        set(OVERBEND_GIT_DIRTY true)
      endif()
    endif()
  endif()
  configure_file(${SOURCE_DIR}/solver/version.h.in ${OUTPUT} @ONLY)
  return()
endif()

find_package(OpenSSL REQUIRED COMPONENTS Crypto)

set(overbend_version_header ${CMAKE_BINARY_DIR}/generated/solver/version.h)
add_custom_target(overbend_version_header BYPRODUCTS ${overbend_version_header}
  COMMAND ${CMAKE_COMMAND}
    -DSOURCE_DIR=${CMAKE_SOURCE_DIR}
    -DOUTPUT=${overbend_version_header}
    -DOVERBEND_VERSION=${PROJECT_VERSION}
    "-DOVERBEND_COMPILER=${CMAKE_CXX_COMPILER_ID} ${CMAKE_CXX_COMPILER_VERSION}"
    -DOVERBEND_BUILD_TYPE=${CMAKE_BUILD_TYPE}
    -DOVERBEND_DEALII_VERSION=${DEAL_II_PACKAGE_VERSION}
    -P ${CMAKE_SOURCE_DIR}/solver/version.cmake
  COMMENT "Writing solver/version.h" VERBATIM)

add_library(overbend_version INTERFACE)
add_dependencies(overbend_version overbend_version_header)
target_include_directories(overbend_version INTERFACE ${CMAKE_BINARY_DIR}/generated)
target_link_libraries(overbend_version INTERFACE OpenSSL::Crypto ${CMAKE_DL_LIBS})
