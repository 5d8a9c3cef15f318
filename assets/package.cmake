# The Debian package: cmake --build BUILD --target deb. Built twice from one source it is the same byte for byte.
set(CPACK_GENERATOR DEB)
set(CPACK_PACKAGE_VENDOR Chalklight)
set(CPACK_PACKAGE_CONTACT "Chalklight <chalklight@example.org>") # RFC 2606: the project has no address
set(CPACK_STRIP_FILES ON)

set(CPACK_PACKAGING_INSTALL_PREFIX /usr)
set(CPACK_DEBIAN_FILE_NAME DEB-DEFAULT)
set(CPACK_DEBIAN_PACKAGE_SECTION graphics)
set(CPACK_DEBIAN_PACKAGE_SHLIBDEPS ON)
set(CPACK_DEBIAN_PACKAGE_DEPENDS fonts-lato) # the letters on the table, which are part of what its frames look like
set(CPACK_DEBIAN_PACKAGE_DESCRIPTION
"Chalklight works out size and cup group from body measurements, drafts the
pieces of a sewing pattern, arranges them on the cloth, learns from a few
readings of a cutting mat how a projector's light falls on the table, and
draws the pieces on the cloth at true scale, to be cut along the light.
.
Pieces are also taken from pattern sheets in PDF and SVG, by a program of
its own that can do nothing else.")

set(CPACK_PROJECT_CONFIG_FILE "${CMAKE_CURRENT_BINARY_DIR}/package-date.cmake")
file(CONFIGURE OUTPUT package-date.cmake @ONLY CONTENT [[
# The time that files in the package have: the builder's own, else that of the version.
if(NOT DEFINED ENV{SOURCE_DATE_EPOCH})
  set(ENV{SOURCE_DATE_EPOCH} @CHALK_RELEASE_SECONDS@)
endif()
]])
include(CPack)

# The folders in the package, and the package, are for everyone, whatever the builder's own umask is.
add_custom_target(deb VERBATIM USES_TERMINAL WORKING_DIRECTORY "${CMAKE_BINARY_DIR}"
  COMMAND sh -c "umask 022 && exec \"$1\" --config CPackConfig.cmake" deb "${CMAKE_CPACK_COMMAND}")
add_dependencies(deb chalklight chalklight-sheet packed_texts)
