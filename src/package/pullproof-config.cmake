# find_package(pullproof): the library as pullproof::pullproof, and what it is linked with.
include(CMakeFindDependencyMacro)
find_dependency(fmt 9.1)
find_dependency(Boost 1.74)
find_dependency(tomlplusplus 3.3)
find_dependency(PkgConfig)
pkg_check_modules(utf8proc REQUIRED IMPORTED_TARGET libutf8proc)
pkg_check_modules(md REQUIRED IMPORTED_TARGET libmd)
include(${CMAKE_CURRENT_LIST_DIR}/pullproof-targets.cmake)
