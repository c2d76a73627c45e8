# Debian packages: `cpack` in a build folder makes pullproof and, of an optimised build, pullproof-dev. It takes dpkg-dev.
set(CPACK_GENERATOR DEB)
set(CPACK_PACKAGE_NAME pullproof)
set(CPACK_PACKAGE_CONTACT "pullproof maintainers <maintainers@pullproof.invalid>")
set(CPACK_PACKAGING_INSTALL_PREFIX /usr)
set(CPACK_STRIP_FILES ON)
set(CPACK_INSTALL_DEFAULT_DIRECTORY_PERMISSIONS OWNER_READ OWNER_WRITE OWNER_EXECUTE GROUP_READ GROUP_EXECUTE WORLD_READ WORLD_EXECUTE)
set(CPACK_COMPONENTS_ALL program)
if(NOT CMAKE_BUILD_TYPE STREQUAL Debug)  # a static library full of symbols is no package
  list(APPEND CPACK_COMPONENTS_ALL development)
endif()
set(CPACK_DEB_COMPONENT_INSTALL ON)
set(CPACK_DEBIAN_FILE_NAME DEB-DEFAULT)
set(CPACK_DEBIAN_PACKAGE_PRIORITY optional)

set(CPACK_DEBIAN_PROGRAM_PACKAGE_NAME pullproof)
set(CPACK_DEBIAN_PROGRAM_PACKAGE_SECTION utils)
set(CPACK_DEBIAN_PROGRAM_PACKAGE_SHLIBDEPS ON)
set(CPACK_DEBIAN_PROGRAM_PACKAGE_RECOMMENDS fonts-dejavu-core)
set(CPACK_COMPONENT_PROGRAM_DESCRIPTION "check an appliance circuit before the wire is pulled
A short text file says what is about to be installed: panel, breaker,
conductors, conduit, appliance, disconnect and the low-voltage control
run. It is checked against the rules of the adopted code edition: voltage
drop, conduit fill, ampacity, grounding, protection and the rest of what
an inspector looks at. The report says what passes, what fails and what
would do, what could not be decided, and where every number comes from.")

set(CPACK_DEBIAN_DEVELOPMENT_PACKAGE_NAME pullproof-dev)
set(CPACK_DEBIAN_DEVELOPMENT_PACKAGE_SECTION libdevel)
set(CPACK_DEBIAN_DEVELOPMENT_PACKAGE_DEPENDS "libfmt-dev, libboost-dev, libtomlplusplus-dev, libutf8proc-dev, libmd-dev, pkg-config")
set(CPACK_COMPONENT_DEVELOPMENT_DESCRIPTION "library of pullproof, to check circuits from other programs
Headers, the static library and the CMake package of pullproof, which
checks an appliance circuit against the rules of a code edition.")
include(CPack)
