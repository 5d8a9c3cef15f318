# The house refuses what its rules forbid: each row is a small project that must or must not configure.

# try(NAME, "sentence it must be refused with" or "", text of the upper floor's CMakeLists.txt, text of its source)
function(try name refusal lists source)
  set(dir "${WORK}/${name}")
  file(REMOVE_RECURSE "${dir}")
  file(WRITE "${dir}/CMakeLists.txt"
    "cmake_minimum_required(VERSION 3.25)\nproject(p C)\nadd_library(chalk_flags INTERFACE)\ninclude(\"${HOUSE}\")\n"
    "add_subdirectory(ground)\nadd_subdirectory(beside)\nadd_subdirectory(upper)\n")
  foreach(folder IN ITEMS ground beside)
    file(WRITE "${dir}/${folder}/CMakeLists.txt" "chalk_module(${folder} FLOOR 0 SOURCES a.c HEADERS a.h)\n")
    file(WRITE "${dir}/${folder}/a.h" "int ${folder}(void);\n")
    file(WRITE "${dir}/${folder}/a.c" "#include \"${folder}/a.h\"\nint ${folder}(void) { return 0; }\n")
  endforeach()
  file(WRITE "${dir}/upper/CMakeLists.txt" "${lists}")
  file(WRITE "${dir}/upper/a.h" "int upper(void);\n")
  file(WRITE "${dir}/upper/a.c" "${source}")
  execute_process(COMMAND ${CMAKE_COMMAND} -G "${GENERATOR}" -S "${dir}" -B "${dir}/build"
    RESULT_VARIABLE result OUTPUT_VARIABLE output ERROR_VARIABLE output)
  string(REGEX REPLACE "[ \n]+" " " output "${output}")
  if(refusal STREQUAL "" AND NOT result EQUAL 0)
    message(SEND_ERROR "${name} must configure: ${output}")
  elseif(NOT refusal STREQUAL "" AND result EQUAL 0)
    message(SEND_ERROR "${name} must be refused")
  elseif(NOT refusal STREQUAL "" AND NOT output MATCHES "${refusal}")
    message(SEND_ERROR "${name} must be refused with '${refusal}': ${output}")
  endif()
endfunction()

set(plain "#include \"upper/a.h\"\nint upper(void) { return 0; }\n")
try(downward "" "chalk_module(upper FLOOR 1 DEPS ground SOURCES a.c HEADERS a.h)\n"
  "#include \"upper/a.h\"\n#include \"ground/a.h\"\nint upper(void) { return ground(); }\n")
try(same_floor "may not depend on ground" "chalk_module(upper FLOOR 0 DEPS ground SOURCES a.c HEADERS a.h)\n" "${plain}")
try(upward "may not depend on ground" "chalk_module(upper FLOOR -1 DEPS ground SOURCES a.c HEADERS a.h)\n" "${plain}")
try(unknown "not built below it" "chalk_module(upper FLOOR 1 DEPS attic SOURCES a.c HEADERS a.h)\n" "${plain}")
try(no_floor "has no FLOOR" "chalk_module(upper DEPS ground SOURCES a.c HEADERS a.h)\n" "${plain}")
try(undeclared "includes beside without declaring it"
  "chalk_module(upper FLOOR 1 DEPS ground SOURCES a.c HEADERS a.h)\n"
  "#include \"upper/a.h\"\n#include \"beside/a.h\"\nint upper(void) { return beside(); }\n")
try(foreign "may not see <SDL.h>" "chalk_module(upper FLOOR 1 DEPS ground SOURCES a.c HEADERS a.h)\n"
  "#include \"upper/a.h\"\n#include <SDL.h>\nint upper(void) { return 0; }\n")
try(foreign_declared "" "chalk_module(upper FLOOR 1 DEPS ground SOURCES a.c HEADERS a.h OUTSIDE SDL)\n"
  "#include \"upper/a.h\"\n#include <SDL.h>\nint upper(void) { return 0; }\n")
try(short_include "folder/file.h"
  "chalk_module(upper FLOOR 1 DEPS ground SOURCES a.c HEADERS a.h)\n"
  "#include \"a.h\"\nint upper(void) { return 0; }\n")

# A file that nobody lists would be checked by nobody.
file(WRITE "${WORK}/extra.h" "int extra(void);\n")
try(unlisted "holds b.h but does not list it"
  "file(COPY_FILE \"${WORK}/extra.h\" \"\${CMAKE_CURRENT_SOURCE_DIR}/b.h\")\nchalk_module(upper FLOOR 1 DEPS ground SOURCES a.c HEADERS a.h)\n" "${plain}")
