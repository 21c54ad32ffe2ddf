# The Debian packages: in a build folder that was configured with CMAKE_INSTALL_PREFIX=/usr,
#   cpack -G DEB
# tankside has the program and what it reads; libtankside-dev the library, its headers and tankside.pc.
set(CPACK_PACKAGE_NAME tankside)
set(CPACK_PACKAGE_CONTACT "The authors of tankside <authors@tankside.invalid>")
set(CPACK_PACKAGING_INSTALL_PREFIX /usr)
set(CPACK_STRIP_FILES ON)
set(CPACK_PROJECT_CONFIG_FILE ${CMAKE_CURRENT_LIST_DIR}/epoch.cmake)
set(CPACK_COMPONENTS_ALL program development)
set(CPACK_COMPONENTS_GROUPING IGNORE)
set(CPACK_DEB_COMPONENT_INSTALL ON)
set(CPACK_DEBIAN_FILE_NAME DEB-DEFAULT)
set(CPACK_DEBIAN_PACKAGE_CONTROL_STRICT_PERMISSION ON)
set(CPACK_DEBIAN_PACKAGE_PRIORITY optional)

set(CPACK_DEBIAN_PROGRAM_PACKAGE_NAME tankside)
set(CPACK_DEBIAN_PROGRAM_PACKAGE_SECTION utils)
set(CPACK_DEBIAN_PROGRAM_PACKAGE_SHLIBDEPS ON)
# What is run as a program, and the typeface without which pages break elsewhere.
set(CPACK_DEBIAN_PROGRAM_PACKAGE_DEPENDS "weasyprint, fonts-dejavu-core, fonts-dejavu-extra")
set(CPACK_COMPONENT_PROGRAM_DESCRIPTION "tankside reads the facts of a production from one XML file, evaluates rules written in Lua, each with
its source, and writes scored assessments with their controls as documents to print. It computes
and documents; a competent person decides.")

set(CPACK_DEBIAN_DEVELOPMENT_PACKAGE_NAME libtankside-dev)
set(CPACK_DEBIAN_DEVELOPMENT_PACKAGE_SECTION libdevel)
set(CPACK_DEBIAN_DEVELOPMENT_PACKAGE_DEPENDS "tankside (= ${PROJECT_VERSION}), liblua5.4-dev, libxml2-dev, libxslt1-dev, libxmlsec1-dev,
 libssl-dev, libminizip-dev, libsqlite3-dev, libudunits2-dev, libcsv-dev")
string(REPLACE "\n" "" CPACK_DEBIAN_DEVELOPMENT_PACKAGE_DEPENDS "${CPACK_DEBIAN_DEVELOPMENT_PACKAGE_DEPENDS}")
set(CPACK_COMPONENT_DEVELOPMENT_DESCRIPTION
    "The library libtankside, its headers and what pkg-config says of it; rules and templates are in tankside.")
include(CPack)
