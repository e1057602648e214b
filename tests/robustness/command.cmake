# SPDX-License-Identifier: GPL-3.0-or-later
# Runs the program as a user would and compares exit status and words. Run as a script with
# -DPROGRAM, -DARGUMENTS (a list), -DSTATUS, -DSAYS (pattern), -DFOLDER (a clean one to stand in),
# and optionally -DFIRST (arguments of a command before, whose output goes to first.toml),
# -DMAKES (files that must then be there), -DMAKE_FOLDER (a folder with a file in it, made before),
# -DHOLDS (pairs of a file and a pattern that must then be in it), -DTHEN (arguments of a command
# afterwards that must end well) and -DAGAIN (what the same command says when it is run once more and
# refuses with 4).
file(REMOVE_RECURSE ${FOLDER})
file(MAKE_DIRECTORY ${FOLDER})
if(MAKE_FOLDER)
  file(WRITE ${FOLDER}/${MAKE_FOLDER}/kept.txt "of an earlier run")
endif()
if(CASE_TEXT)
  file(WRITE ${FOLDER}/case.toml "${CASE_TEXT}")
endif()
if(FIRST)
  execute_process(COMMAND ${PROGRAM} ${FIRST} WORKING_DIRECTORY ${FOLDER}
    OUTPUT_FILE first.toml RESULT_VARIABLE status)
  if(NOT status EQUAL 0)
    message(FATAL_ERROR "the first command ended with ${status}")
  endif()
endif()
execute_process(COMMAND ${PROGRAM} ${ARGUMENTS} WORKING_DIRECTORY ${FOLDER}
  OUTPUT_VARIABLE out ERROR_VARIABLE err RESULT_VARIABLE status)
if(NOT status EQUAL STATUS)
  message(FATAL_ERROR "exit status ${status} instead of ${STATUS}\n${out}\n${err}")
endif()
if(NOT "${out}${err}" MATCHES "${SAYS}")
  message(FATAL_ERROR "nothing like \"${SAYS}\" in\n${out}\n${err}")
endif()
foreach(file ${MAKES})
  if(NOT EXISTS ${FOLDER}/${file})
    message(FATAL_ERROR "${file} was not made")
  endif()
endforeach()
while(HOLDS)
  list(POP_FRONT HOLDS file pattern)
  file(READ ${FOLDER}/${file} text)
  if(NOT "${text}" MATCHES "${pattern}")
    message(FATAL_ERROR "nothing like \"${pattern}\" in ${file}\n${text}")
  endif()
endwhile()
if(THEN)
  execute_process(COMMAND ${PROGRAM} ${THEN} WORKING_DIRECTORY ${FOLDER}
    OUTPUT_VARIABLE out ERROR_VARIABLE err RESULT_VARIABLE status)
  if(NOT status EQUAL 0)
    message(FATAL_ERROR "the command afterwards ended with ${status}\n${out}\n${err}")
  endif()
endif()
if(AGAIN)
  execute_process(COMMAND ${PROGRAM} ${ARGUMENTS} WORKING_DIRECTORY ${FOLDER}
    OUTPUT_VARIABLE out ERROR_VARIABLE err RESULT_VARIABLE status)
  if(NOT status EQUAL 4 OR NOT "${out}${err}" MATCHES "${AGAIN}")
    message(FATAL_ERROR "once more: ended with ${status}, not 4 and \"${AGAIN}\"\n${out}\n${err}")
  endif()
endif()
if(MAKE_FOLDER AND NOT EXISTS ${FOLDER}/${MAKE_FOLDER}/kept.txt)
  message(FATAL_ERROR "a file that was there is gone")
endif()
