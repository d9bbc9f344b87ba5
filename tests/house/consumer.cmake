# Installs the build, then builds and runs the programs under examples/programs as a project that
# finds it with find_package, and one of them by pkg-config; and offers the checkout to a project by
# add_subdirectory.
#   cmake -DROOT= -DBUILD= -DWORK= -DGENERATOR= -P consumer.cmake
cmake_minimum_required(VERSION 3.25)
set(prefix ${WORK}/prefix)
file(REMOVE_RECURSE ${WORK})
execute_process(COMMAND ${CMAKE_COMMAND} --install ${BUILD} --prefix ${prefix}
                OUTPUT_QUIET COMMAND_ERROR_IS_FATAL ANY)

# The checkout and the build directory must not be needed: nothing installed may name them.
file(GLOB_RECURSE installed ${prefix}/*.cmake ${prefix}/*.hpp ${prefix}/*.pc)
foreach(file IN LISTS installed)
  file(STRINGS ${file} leaks REGEX "${ROOT}|${BUILD}")
  if(leaks)
    message(FATAL_ERROR "${file} names the checkout: ${leaks}")
  endif()
endforeach()

# Headers for users and no others.
file(GLOB_RECURSE headers RELATIVE ${prefix}/include ${prefix}/include/*.hpp)
list(LENGTH headers count)
if(count LESS 30 OR count GREATER 46)
  message(FATAL_ERROR "${count} headers are installed")
endif()
if(headers MATCHES "plan/search|stack/clearance|reading/yaml|paper/document|draw/page")
  message(FATAL_ERROR "headers that are no business of a user's are installed: ${headers}")
endif()
function(said_is program expected)
  execute_process(COMMAND ${program} ${ARGN} WORKING_DIRECTORY ${ROOT}
                  OUTPUT_VARIABLE said ERROR_VARIABLE said RESULT_VARIABLE code)
  file(READ ${ROOT}/tests/house/programs/${expected} wanted)
  if(NOT "${said}exit ${code}\n" STREQUAL wanted)
    message(FATAL_ERROR "${program} ${ARGN} said\n${said}exit ${code}\nand not, as in ${expected},\n${wanted}")
  endif()
endfunction()

set(flags "-Wall -Wextra -Wpedantic -Wno-missing-field-initializers -Werror")
execute_process(COMMAND ${CMAKE_COMMAND} -S ${ROOT}/examples/programs -B ${WORK}/build -G ${GENERATOR}
                -DCMAKE_PREFIX_PATH=${prefix} -DCMAKE_CXX_FLAGS=${flags}
                OUTPUT_QUIET COMMAND_ERROR_IS_FATAL ANY)
execute_process(COMMAND ${CMAKE_COMMAND} --build ${WORK}/build OUTPUT_QUIET COMMAND_ERROR_IS_FATAL ANY)
set(demo examples/pump-engine.yaml)
said_is(${WORK}/build/change_a_size change_a_size.expected ${demo} stator.coil_out "11.2 +-0.1" "rotor clear of coils")
said_is(${WORK}/build/change_a_size no_such_size.expected ${demo} plate.frnt 5.53 "rotor clear of coils")
said_is(${WORK}/build/change_a_size not_a_job.expected tests/hostile/many-faults.yaml plate.front 5.53 height)
said_is(${WORK}/build/make_a_job make_a_job.expected)
said_is(${WORK}/build/answer_all answer_all.expected ${demo} ${WORK})
said_is(${WORK}/build/answer_all no_file.expected examples/no-such-job.yaml ${WORK})
file(READ ${WORK}/section.svg drawn LIMIT 100)
file(READ ${WORK}/sheet.html page LIMIT 100)
if(NOT drawn MATCHES "<svg" OR NOT page MATCHES "<!DOCTYPE html>")
  message(FATAL_ERROR "the section or the sheet is none:\n${drawn}\n${page}")
endif()

# What was made in memory and written is a job to the program.
execute_process(COMMAND ${WORK}/build/make_a_job OUTPUT_FILE ${WORK}/made.yaml COMMAND_ERROR_IS_FATAL ANY)
execute_process(COMMAND ${prefix}/bin/trialfit check ${WORK}/made.yaml OUTPUT_VARIABLE said RESULT_VARIABLE code)
if(NOT code EQUAL 0 OR NOT said MATCHES "^Fits")
  message(FATAL_ERROR "the job that was made in memory: exit ${code}\n${said}")
endif()

find_program(pkg_config NAMES pkg-config pkgconf REQUIRED)
find_program(compiler NAMES c++ g++ REQUIRED)
execute_process(COMMAND ${CMAKE_COMMAND} -E env PKG_CONFIG_PATH=${prefix}/lib/pkgconfig:${prefix}/${LIBDIR}/pkgconfig
                ${pkg_config} --cflags --libs trialfit OUTPUT_VARIABLE line COMMAND_ERROR_IS_FATAL ANY)
separate_arguments(line UNIX_COMMAND "${line}")
execute_process(COMMAND ${compiler} -std=c++20 ${ROOT}/examples/programs/change_a_size.cpp -o ${WORK}/by_pkg_config ${line}
                COMMAND_ERROR_IS_FATAL ANY)
set(ENV{LD_LIBRARY_PATH} ${prefix}/${LIBDIR})
said_is(${WORK}/by_pkg_config change_a_size.expected ${demo} stator.coil_out "11.2 +-0.1" "rotor clear of coils")
# The program that the README shows.
file(READ ${ROOT}/README.md readme)
string(REGEX MATCH "```cpp\n([^`]*)```\n\n```text\n([^`]*)```" _ "${readme}")
set(wanted "${CMAKE_MATCH_2}")
file(WRITE ${WORK}/shown.cpp "${CMAKE_MATCH_1}")
execute_process(COMMAND ${compiler} -std=c++20 ${WORK}/shown.cpp -o ${WORK}/shown ${line} COMMAND_ERROR_IS_FATAL ANY)
execute_process(COMMAND ${WORK}/shown WORKING_DIRECTORY ${ROOT} OUTPUT_VARIABLE said COMMAND_ERROR_IS_FATAL ANY)
if(wanted STREQUAL "" OR NOT said STREQUAL wanted)
  message(FATAL_ERROR "the program in the README said\n${said}and not\n${wanted}")
endif()

# A project within whose own the checkout lies gets the library and no program.
file(WRITE ${WORK}/within/CMakeLists.txt "cmake_minimum_required(VERSION 3.25)
project(within LANGUAGES CXX)
add_subdirectory(${ROOT} trialfit)
if(NOT TARGET trialfit::trialfit OR TARGET trialfit_cli OR TARGET unit_laws)
  message(FATAL_ERROR \"the library alone is wanted\")
endif()
add_subdirectory(${ROOT}/examples/programs programs)
")
execute_process(COMMAND ${CMAKE_COMMAND} -S ${WORK}/within -B ${WORK}/within/build -G ${GENERATOR}
                OUTPUT_QUIET COMMAND_ERROR_IS_FATAL ANY)

execute_process(COMMAND ${prefix}/bin/trialfit --version OUTPUT_VARIABLE said COMMAND_ERROR_IS_FATAL ANY)
if(NOT said MATCHES "[0-9]+\\.[0-9]+\\.[0-9]+")
  message(FATAL_ERROR "the installed program said: ${said}")
endif()
