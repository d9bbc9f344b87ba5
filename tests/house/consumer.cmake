# Installs the build, then builds and runs a project that finds it with find_package.
#   cmake -DROOT= -DBUILD= -DWORK= -DGENERATOR= -P consumer.cmake
cmake_minimum_required(VERSION 3.25)
file(REMOVE_RECURSE ${WORK})
execute_process(COMMAND ${CMAKE_COMMAND} --install ${BUILD} --prefix ${WORK}/prefix
                OUTPUT_QUIET COMMAND_ERROR_IS_FATAL ANY)
# The checkout and the build directory must not be needed: nothing installed may name them.
file(GLOB_RECURSE installed ${WORK}/prefix/*.cmake ${WORK}/prefix/*.hpp)
foreach(file IN LISTS installed)
  file(STRINGS ${file} leaks REGEX "${ROOT}|${BUILD}")
  if(leaks)
    message(FATAL_ERROR "${file} names the checkout: ${leaks}")
  endif()
endforeach()
execute_process(COMMAND ${CMAKE_COMMAND} -S ${ROOT}/tests/house/consumer -B ${WORK}/build -G ${GENERATOR}
                -DCMAKE_PREFIX_PATH=${WORK}/prefix OUTPUT_QUIET COMMAND_ERROR_IS_FATAL ANY)
execute_process(COMMAND ${CMAKE_COMMAND} --build ${WORK}/build OUTPUT_QUIET COMMAND_ERROR_IS_FATAL ANY)
execute_process(COMMAND ${WORK}/build/consumer ${ROOT}/examples/pump-engine.yaml
                OUTPUT_VARIABLE said COMMAND_ERROR_IS_FATAL ANY)
if(NOT said STREQUAL "fails\nplate.front meets rotor.rim\n")
  message(FATAL_ERROR "the consumer said: ${said}")
endif()
execute_process(COMMAND ${WORK}/prefix/bin/trialfit --version OUTPUT_VARIABLE said COMMAND_ERROR_IS_FATAL ANY)
if(NOT said MATCHES "[0-9]+\\.[0-9]+\\.[0-9]+")
  message(FATAL_ERROR "the installed program said: ${said}")
endif()
