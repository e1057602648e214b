# SPDX-License-Identifier: GPL-3.0-or-later
# Script: turns the text file IN into the C++ source OUT with the string SYMBOL in NAMESPACE. The
# text of LICENCE, if named, goes before it as a comment (of CSS or JavaScript).
file(READ "${IN}" text)
if(LICENCE)
  file(READ "${LICENCE}" licence)
  set(text "/*\n${licence}*/\n${text}")
endif()
if(text MATCHES "\\)TEXT\"")
  message(FATAL_ERROR "${IN} holds the end mark of the string")
endif()
file(WRITE "${OUT}" "// Written from a text file by embed_text.cmake.
namespace ${NAMESPACE}
{
extern const char *const ${SYMBOL};
const char *const ${SYMBOL} = R\"TEXT(${text})TEXT\";
}  // namespace ${NAMESPACE}
")
