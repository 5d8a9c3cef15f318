# The house: one folder, one job, one static library, on a numbered floor.
#
#   chalk_module(NAME FLOOR n DEPS lower-folders... SOURCES files... HEADERS files...
#                OUTSIDE header-prefixes... LINK targets... [BESIDE files of another target])
#
# Configuring fails when a folder depends on its own floor or a higher one, when it includes a folder it did not
# declare, when it includes a foreign header that is not its own to see, or holds a file it does not list. Every header is compiled alone by the
# target all_verify_interface_header_sets.

# Headers every folder may include: the C library's and POSIX's.
set(CHALK_OPEN_HEADERS
  assert.h ctype.h errno.h fcntl.h float.h inttypes.h limits.h locale.h math.h signal.h stdalign.h stdarg.h stdatomic.h stdbool.h
  stddef.h stdint.h stdio.h stdlib.h string.h time.h unistd.h sys/stat.h sys/types.h)

# What a source file includes: quoted ones must be "folder/file.h" of a declared folder, others must be open or declared.
function(chalk_check_includes module file deps outside)
  file(STRINGS "${file}" lines REGEX "^[ \t]*#[ \t]*include")
  foreach(line IN LISTS lines)
    if(line MATCHES "\"([^\"/]+)/[^\"]+\"")
      set(folder "${CMAKE_MATCH_1}")
      if(NOT folder STREQUAL module AND NOT folder IN_LIST deps)
        message(FATAL_ERROR "house: ${module} includes ${folder} without declaring it (${file}: ${line})")
      endif()
    elseif(line MATCHES "<([^>]+)>")
      set(header "${CMAKE_MATCH_1}")
      set(allowed FALSE)
      if(header IN_LIST CHALK_OPEN_HEADERS)
        set(allowed TRUE)
      endif()
      foreach(prefix IN LISTS outside)
        string(FIND "${header}" "${prefix}" at)
        if(at EQUAL 0)
          set(allowed TRUE)
        endif()
      endforeach()
      if(NOT allowed)
        message(FATAL_ERROR "house: ${module} may not see <${header}> (${file})")
      endif()
    else()
      message(FATAL_ERROR "house: includes are \"folder/file.h\" or <header.h> (${file}: ${line})")
    endif()
  endforeach()
  set_property(DIRECTORY APPEND PROPERTY CMAKE_CONFIGURE_DEPENDS "${file}")
endfunction()

function(chalk_module name)
  cmake_parse_arguments(M "" "FLOOR" "DEPS;SOURCES;HEADERS;BESIDE;OUTSIDE;LINK" ${ARGN})
  if(NOT DEFINED M_FLOOR)
    message(FATAL_ERROR "house: ${name} has no FLOOR")
  endif()
  foreach(dep IN LISTS M_DEPS)
    get_property(dep_floor GLOBAL PROPERTY "CHALK_FLOOR_${dep}")
    if("${dep_floor}" STREQUAL "")
      message(FATAL_ERROR "house: ${name} (floor ${M_FLOOR}) depends on ${dep}, which is not built below it")
    endif()
    if(NOT dep_floor LESS M_FLOOR)
      message(FATAL_ERROR "house: ${name} (floor ${M_FLOOR}) may not depend on ${dep} (floor ${dep_floor})")
    endif()
  endforeach()
  set_property(GLOBAL PROPERTY "CHALK_FLOOR_${name}" "${M_FLOOR}")

  foreach(file IN LISTS M_SOURCES M_HEADERS)
    chalk_check_includes(${name} "${CMAKE_CURRENT_SOURCE_DIR}/${file}" "${M_DEPS}" "${M_OUTSIDE}")
  endforeach()

  file(GLOB present RELATIVE "${CMAKE_CURRENT_SOURCE_DIR}" CONFIGURE_DEPENDS "${CMAKE_CURRENT_SOURCE_DIR}/*.[ch]")
  foreach(file IN LISTS present)
    if(NOT file IN_LIST M_SOURCES AND NOT file IN_LIST M_HEADERS AND NOT file IN_LIST M_BESIDE)
      message(FATAL_ERROR "house: ${name} holds ${file} but does not list it")
    endif()
  endforeach()

  cmake_path(GET CMAKE_CURRENT_SOURCE_DIR PARENT_PATH house) # headers are named "folder/file.h" from here
  add_library(${name} STATIC ${M_SOURCES})
  target_sources(${name} PUBLIC FILE_SET HEADERS BASE_DIRS "${house}" FILES ${M_HEADERS})
  target_link_libraries(${name} PUBLIC ${M_DEPS} PRIVATE chalk_flags ${M_LINK})
endfunction()
