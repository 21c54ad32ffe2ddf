# cmake -C shared/cmake/release.cmake -S . -B build/release   (CC=gcc or CC=clang chooses the compiler)
set(CMAKE_BUILD_TYPE Release CACHE STRING "")
set(TANKSIDE_WERROR ON CACHE BOOL "")
set(TANKSIDE_SANITIZE OFF CACHE BOOL "")
