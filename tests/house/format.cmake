# Every source file is as clang-format would write it.
#   cmake -DROOT=<checkout> -DCLANG_FORMAT=<program> -P format.cmake
cmake_minimum_required(VERSION 3.25)
file(GLOB_RECURSE files ${ROOT}/lib/*.cpp ${ROOT}/lib/*.hpp ${ROOT}/cli/*.cpp ${ROOT}/cli/*.hpp
     ${ROOT}/tests/*.cpp ${ROOT}/tests/*.hpp ${ROOT}/examples/*.cpp)
list(LENGTH files count)
if(count LESS 20)
  message(FATAL_ERROR "only ${count} files found")
endif()
execute_process(COMMAND ${CLANG_FORMAT} --dry-run -Werror ${files} RESULT_VARIABLE code ERROR_VARIABLE said)
if(code)
  string(REGEX MATCHALL "[^\n]+: error:" places "${said}")
  list(TRANSFORM places REPLACE ":[0-9]+:[0-9]+: error:" "")
  list(REMOVE_DUPLICATES places)
  list(JOIN places " " names)
  message(FATAL_ERROR "not as clang-format writes it; mend with\n  clang-format -i ${names}\n${code}")
endif()
