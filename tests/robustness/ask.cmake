# SPDX-License-Identifier: GPL-3.0-or-later
# Answers the questionnaire through a pipe and checks what it wrote. -DPROGRAM, -DFOLDER (a clean
# one), -DSCRIPT=finished: to the end, gaps and all; unfinished: the input ends half way.
file(REMOVE_RECURSE ${FOLDER})
file(MAKE_DIRECTORY ${FOLDER})
set(gaps "go found.bow\nback\n1 0\n7 0.65\n16 0\n")
if(SCRIPT STREQUAL "finished")
  file(WRITE ${FOLDER}/typed.txt "mm\n${gaps}go found.twist\n43\n0.8 mm over 43 mm\nend\nwrite\n")
  set(expected 0)
  set(says "Scale: .*forward bow of 0.65 mm.*has no unit")
else()
  file(WRITE ${FOLDER}/typed.txt "mm\ngo neck.nut_width\n43\n")
  set(expected 2)
  set(says "not yet a complete case.*found.bow")
endif()
execute_process(COMMAND ${PROGRAM} ask case.toml --preset electric WORKING_DIRECTORY ${FOLDER}
  INPUT_FILE typed.txt OUTPUT_VARIABLE out ERROR_VARIABLE err RESULT_VARIABLE status)
if(NOT status EQUAL expected OR NOT "${out}${err}" MATCHES "${says}")
  message(FATAL_ERROR "ask ended with ${status} and said\n${out}\n${err}")
endif()
execute_process(COMMAND ${PROGRAM} check case.toml WORKING_DIRECTORY ${FOLDER}
  OUTPUT_VARIABLE out ERROR_VARIABLE err RESULT_VARIABLE status)
file(READ ${FOLDER}/case.toml text)
if(NOT status EQUAL expected)
  message(FATAL_ERROR "check ended with ${status}\n${out}\n${err}\n${text}")
endif()
if(SCRIPT STREQUAL "unfinished" AND NOT text MATCHES "^# UNFINISHED.*nut_width = \"43 mm\"")
  message(FATAL_ERROR "the answer is lost or the file is not marked\n${text}")
endif()
