# The one time that anything made of this source carries: SOURCE_DATE_EPOCH when it is set, else that of the
# last commit, else a fixed one. No clock is read, so the same source makes the same bytes.
if("$ENV{SOURCE_DATE_EPOCH}" STREQUAL "")
  cmake_path(SET source NORMALIZE ${CMAKE_CURRENT_LIST_DIR}/../..)
  execute_process(COMMAND git -C ${source} log -1 --format=%ct OUTPUT_VARIABLE committed
                  OUTPUT_STRIP_TRAILING_WHITESPACE ERROR_QUIET RESULT_VARIABLE failed)
  if(failed OR committed STREQUAL "")
    set(committed 1767225600) # 2026-01-01
  endif()
  set(ENV{SOURCE_DATE_EPOCH} ${committed})
endif()
if(CMAKE_SCRIPT_MODE_FILE STREQUAL CMAKE_CURRENT_LIST_FILE) # cmake -P shared/cmake/epoch.cmake says it
  message($ENV{SOURCE_DATE_EPOCH})
endif()
