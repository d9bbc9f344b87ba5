# What a project that uses the library gets: trialfit.hpp with the headers that it needs and no
# others, the library, and the files by which find_package and pkg-config find it.

# The headers below lib/ that `header` includes, by whatever way, itself among them.
function(headers_of header into)
  set(found ${header})
  set(open ${header})
  while(open)
    list(POP_FRONT open next)
    file(STRINGS ${CMAKE_CURRENT_SOURCE_DIR}/${next} lines REGEX "^ *#include <trialfit/")
    foreach(line IN LISTS lines)
      string(REGEX REPLACE ".*<(.*)>.*" "\\1" each "${line}")
      if(NOT each IN_LIST found)
        list(APPEND found ${each})
        list(APPEND open ${each})
      endif()
    endforeach()
  endwhile()
  set(${into} ${found} PARENT_SCOPE)
endfunction()

headers_of(trialfit/trialfit.hpp public_headers)
set_property(DIRECTORY APPEND PROPERTY CMAKE_CONFIGURE_DEPENDS ${public_headers})
foreach(header IN LISTS public_headers)
  cmake_path(GET header PARENT_PATH folder)
  install(FILES ${header} DESTINATION ${CMAKE_INSTALL_INCLUDEDIR}/${folder} COMPONENT dev)
  file(STRINGS ${header} foreign REGEX "^ *#include <(Eigen|yaml-cpp|fmt|nlohmann)/")
  if(foreign)
    message(FATAL_ERROR "${header} is for users and includes what they need not have: ${foreign}")
  endif()
endforeach()

# A static library needs at the link what a shared one brings along.
set(TRIALFIT_FINDS)
set(TRIALFIT_REQUIRES)
set(TRIALFIT_LIBS)
get_target_property(kind trialfit TYPE)
if(kind STREQUAL STATIC_LIBRARY)
  string(APPEND TRIALFIT_FINDS "find_dependency(yaml-cpp)\nfind_dependency(fmt)\nfind_dependency(Threads)\n")
  string(APPEND TRIALFIT_REQUIRES " yaml-cpp fmt libsodium")
  string(APPEND TRIALFIT_LIBS " ${CMAKE_THREAD_LIBS_INIT}")
endif()

install(TARGETS trialfit EXPORT trialfit-targets COMPONENT dev)
install(EXPORT trialfit-targets NAMESPACE trialfit:: DESTINATION ${CMAKE_INSTALL_LIBDIR}/cmake/trialfit COMPONENT dev)
include(CMakePackageConfigHelpers)
configure_package_config_file(trialfit-config.cmake.in ${PROJECT_BINARY_DIR}/trialfit-config.cmake
  INSTALL_DESTINATION ${CMAKE_INSTALL_LIBDIR}/cmake/trialfit)
write_basic_package_version_file(${PROJECT_BINARY_DIR}/trialfit-config-version.cmake
  COMPATIBILITY SameMinorVersion)
install(FILES ${PROJECT_BINARY_DIR}/trialfit-config.cmake ${PROJECT_BINARY_DIR}/trialfit-config-version.cmake
  DESTINATION ${CMAKE_INSTALL_LIBDIR}/cmake/trialfit COMPONENT dev)
# From the place of the file itself, so that an installed tree may be moved.
set(pkgconfig_dir ${CMAKE_INSTALL_LIBDIR}/pkgconfig)
cmake_path(RELATIVE_PATH CMAKE_INSTALL_PREFIX BASE_DIRECTORY ${CMAKE_INSTALL_PREFIX}/${pkgconfig_dir}
           OUTPUT_VARIABLE TRIALFIT_UP)
configure_file(trialfit.pc.in ${PROJECT_BINARY_DIR}/trialfit.pc @ONLY)
install(FILES ${PROJECT_BINARY_DIR}/trialfit.pc DESTINATION ${pkgconfig_dir} COMPONENT dev)
