# Puts what the program says of its vocabulary into a manual page:
#   cmake -DPROGRAM=tankside -DPAGE=x.5.in -DWRITTEN=x.5 -P shared/cmake/man.cmake
cmake_minimum_required(VERSION 3.25)
execute_process(COMMAND "${PROGRAM}" vocabulary --as man
                OUTPUT_VARIABLE elements COMMAND_ERROR_IS_FATAL ANY)
file(READ "${PAGE}" page)
string(REPLACE "@ELEMENTS@\n" "${elements}" page "${page}")
file(WRITE "${WRITTEN}" "${page}")
