# cmake -C shared/cmake/debug.cmake -S . -B build/debug   (CC=gcc or CC=clang chooses the compiler)
set(CMAKE_BUILD_TYPE Debug CACHE STRING "")
set(TANKSIDE_WERROR ON CACHE BOOL "")
set(TANKSIDE_SANITIZE OFF CACHE BOOL "")
