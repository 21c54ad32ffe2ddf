# cmake -C shared/cmake/sanitize.cmake -S . -B build/sanitize   (CC=gcc or CC=clang chooses the compiler)
set(CMAKE_BUILD_TYPE Debug CACHE STRING "")
set(TANKSIDE_WERROR ON CACHE BOOL "")
set(TANKSIDE_SANITIZE ON CACHE BOOL "")
