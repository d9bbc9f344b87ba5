# Debian packages: cmake --build build --target package makes trialfit, libtrialfit-dev and
# trialfit-doc; package_source an archive of the sources that builds offline.
find_program(TRIALFIT_GZIP gzip REQUIRED)
set(docs ${CMAKE_INSTALL_DATADIR}/doc)

# A page is made by the program that it is about, so that no fact stands twice.
set(pages)
function(page section name)
  set(file ${PROJECT_BINARY_DIR}/man/${name}.${section}.gz)
  add_custom_command(OUTPUT ${file}
    COMMAND sh -c "$<TARGET_FILE:trialfit_cli> manual ${ARGN} | ${TRIALFIT_GZIP} -9n > ${file}"
    DEPENDS trialfit_cli VERBATIM)
  install(FILES ${file} DESTINATION ${CMAKE_INSTALL_MANDIR}/man${section} COMPONENT program)
  set(pages ${pages} ${file} PARENT_SCOPE)
endfunction()
file(MAKE_DIRECTORY ${PROJECT_BINARY_DIR}/man)
page(1 trialfit)
page(5 trialfit-job job)
foreach(each IN LISTS commands)
  page(1 trialfit-${each} ${each})
endforeach()

function(completion shell folder name)
  set(file ${PROJECT_BINARY_DIR}/completion/${name})
  add_custom_command(OUTPUT ${file}
    COMMAND sh -c "$<TARGET_FILE:trialfit_cli> completion ${shell} > ${file}"
    DEPENDS trialfit_cli VERBATIM)
  install(FILES ${file} DESTINATION ${CMAKE_INSTALL_DATADIR}/${folder} COMPONENT program)
  set(pages ${pages} ${file} PARENT_SCOPE)
endfunction()
file(MAKE_DIRECTORY ${PROJECT_BINARY_DIR}/completion)
completion(bash bash-completion/completions trialfit)
completion(zsh zsh/vendor-completions _trialfit)
completion(fish fish/vendor_completions.d trialfit.fish)

# Part of every build: `cmake --install` puts them in place.
add_custom_target(pages ALL DEPENDS ${pages})

set(changelog ${PROJECT_BINARY_DIR}/changelog.gz)
file(CONFIGURE OUTPUT changelog CONTENT "trialfit (${PROJECT_VERSION}) unstable; urgency=medium

  * See the last section of README.md.

 -- The Trialfit makers <trialfit@trialfit.invalid>  Mon, 30 Nov 2026 12:00:00 +0000
" @ONLY)
execute_process(COMMAND ${TRIALFIT_GZIP} -9nc ${CMAKE_CURRENT_BINARY_DIR}/changelog OUTPUT_FILE ${changelog})
foreach(part program=trialfit dev=libtrialfit-dev doc=trialfit-doc)
  string(REGEX REPLACE "=.*" "" component ${part})
  string(REGEX REPLACE ".*=" "" package ${part})
  install(FILES ${PROJECT_SOURCE_DIR}/LICENSE DESTINATION ${docs}/${package} RENAME copyright
          COMPONENT ${component})
  install(FILES ${changelog} DESTINATION ${docs}/${package} COMPONENT ${component})
endforeach()
install(DIRECTORY ${PROJECT_SOURCE_DIR}/schemas DESTINATION ${CMAKE_INSTALL_DATADIR}/trialfit
        COMPONENT program FILES_MATCHING PATTERN "*.json")
install(DIRECTORY ${PROJECT_SOURCE_DIR}/examples DESTINATION ${docs}/trialfit-doc COMPONENT doc
        FILES_MATCHING PATTERN "*.yaml" PATTERN "programs/*.cpp")
install(FILES ${PROJECT_SOURCE_DIR}/README.md ${CMAKE_CURRENT_SOURCE_DIR}/manual/guide.md
        DESTINATION ${docs}/trialfit-doc COMPONENT doc)

set(CPACK_GENERATOR DEB)
set(CPACK_PACKAGE_CONTACT "The Trialfit makers <trialfit@trialfit.invalid>")
set(CPACK_STRIP_FILES ON)
set(CPACK_COMPONENTS_ALL program dev doc)
set(CPACK_DEB_COMPONENT_INSTALL ON)
set(CPACK_DEBIAN_FILE_NAME DEB-DEFAULT)
set(CPACK_DEBIAN_COMPRESSION_TYPE xz)
set(CPACK_INSTALL_DEFAULT_DIRECTORY_PERMISSIONS OWNER_READ OWNER_WRITE OWNER_EXECUTE GROUP_READ
    GROUP_EXECUTE WORLD_READ WORLD_EXECUTE)
set(CPACK_DEBIAN_PROGRAM_PACKAGE_NAME trialfit)
set(CPACK_DEBIAN_PROGRAM_PACKAGE_SECTION science)
set(CPACK_DEBIAN_PROGRAM_PACKAGE_SHLIBDEPS ON)
set(CPACK_DEBIAN_PROGRAM_PACKAGE_SUGGESTS trialfit-doc)
set(CPACK_COMPONENT_PROGRAM_DESCRIPTION "trial fit of an ignition kit, on paper
Says from measured and toleranced parts whether a rotor, stator and plate made
for one engine fit another, what touches first when the nut is tightened, what
to turn off which part, and how sure that is.")
set(CPACK_DEBIAN_DEV_PACKAGE_NAME libtrialfit-dev)
set(CPACK_DEBIAN_DEV_PACKAGE_SECTION libdevel)
set(CPACK_DEBIAN_DEV_PACKAGE_DEPENDS "libyaml-cpp-dev, libfmt-dev, libsodium-dev")
set(CPACK_COMPONENT_DEV_DESCRIPTION "trial fit of an ignition kit, the C++ library
Headers, the library, and what find_package and pkg-config need to build a
program that reads or makes a job and asks what fits.")
set(CPACK_DEBIAN_DOC_PACKAGE_NAME trialfit-doc)
set(CPACK_DEBIAN_DOC_PACKAGE_SECTION doc)
set(CPACK_DEBIAN_DOC_PACKAGE_ARCHITECTURE all)
set(CPACK_COMPONENT_DOC_DESCRIPTION "trial fit of an ignition kit, guide and examples
How to measure and what the figures mean, from two readings to the record, and
job files with invented parts to begin from.")
set(CPACK_SOURCE_GENERATOR TGZ)
set(CPACK_SOURCE_PACKAGE_FILE_NAME trialfit-${PROJECT_VERSION})
set(CPACK_SOURCE_IGNORE_FILES "/[.]git/;/[.]git$;/build[^/]*/;/__pycache__/")
include(CPack)
