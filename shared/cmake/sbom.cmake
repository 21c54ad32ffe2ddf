# Writes what the package consists of and stands on, in SPDX 2.3 (JSON), beside what was just installed: its
# files with their checksums; every library that the program is linked with, by others too, and what it runs,
# each with the version and the licence that Debian states. Included by the install script:
#   TREE, where the files are; INSTALLED, their names; PROGRAM, one of them; VERSION; SBOM, what to write.
cmake_minimum_required(VERSION 3.25)
include(${CMAKE_CURRENT_LIST_DIR}/epoch.cmake)
string(TIMESTAMP created "%Y-%m-%dT%H:%M:%SZ" UTC) # of SOURCE_DATE_EPOCH

function(quote text result)
  string(REPLACE "\\" "\\\\" text "${text}")
  string(REPLACE "\"" "\\\"" text "${text}")
  string(REPLACE "\n" "\\n" text "${text}")
  string(REPLACE "\t" "\\t" text "${text}")
  string(REPLACE "\r" "" text "${text}")
  foreach(control RANGE 1 31)
    string(ASCII ${control} control)
    string(REPLACE "${control}" " " text "${text}")
  endforeach()
  set(${result} "\"${text}\"" PARENT_SCOPE)
endfunction()

# Puts another object to what will be a JSON array: in no list of CMake's, which a semicolon would part.
function(add array object)
  set(all "${${array}}")
  if(NOT all STREQUAL "")
    string(APPEND all ",\n  ")
  endif()
  set(${array} "${all}${object}" PARENT_SCOPE)
endfunction()

# ---- files -----------------------------------------------------------------------
set(files "")
set(packages "")
set(licences "")
set(relations "")
set(sums "")
list(TRANSFORM INSTALLED REPLACE "//" "/")
list(SORT INSTALLED)
foreach(name IN LISTS INSTALLED)
  if(name STREQUAL SBOM OR IS_SYMLINK "${TREE}${name}")
    continue()
  endif()
  file(SHA1 "${TREE}${name}" sha1)
  file(SHA256 "${TREE}${name}" sha256)
  string(SHA1 id "${name}")
  quote(".${name}" file)
  list(APPEND sums ${sha1})
  add(files "{\"SPDXID\": \"SPDXRef-File-${id}\", \"fileName\": ${file}, \"licenseConcluded\": \"NOASSERTION\", \"licenseInfoInFiles\": [\"NOASSERTION\"], \"copyrightText\": \"NOASSERTION\", \"checksums\": [{\"algorithm\": \"SHA1\", \"checksumValue\": \"${sha1}\"}, {\"algorithm\": \"SHA256\", \"checksumValue\": \"${sha256}\"}]}")
  add(relations "{\"spdxElementId\": \"SPDXRef-Package-tankside\", \"relationshipType\": \"CONTAINS\", \"relatedSpdxElement\": \"SPDXRef-File-${id}\"}")
endforeach()
# The verification code of SPDX 2.3, section 7.9: the SHA-1 of all SHA-1, sorted and put together.
list(SORT sums)
list(JOIN sums "" sums)
string(SHA1 code "${sums}")

# ---- what it stands on -----------------------------------------------------------
file(GET_RUNTIME_DEPENDENCIES EXECUTABLES "${TREE}${PROGRAM}" RESOLVED_DEPENDENCIES_VAR libraries
     UNRESOLVED_DEPENDENCIES_VAR not_found CONFLICTING_DEPENDENCIES_PREFIX conflicts)
# A file may be known to dpkg by the one name of its folder or by the other.
set(places "")
foreach(library IN LISTS libraries)
  string(REGEX REPLACE "^/usr" "" short "${library}")
  list(APPEND places "${short}" "/usr${short}")
endforeach()
execute_process(COMMAND dpkg-query -S ${places} OUTPUT_VARIABLE owners ERROR_QUIET)
string(REGEX MATCHALL "[^\n:]+:[^\n]*" owners "${owners}")
list(TRANSFORM owners REPLACE ":.*" "")
list(SORT owners)
list(REMOVE_DUPLICATES owners)
set(run weasyprint fonts-dejavu-core fonts-dejavu-extra)

foreach(name IN LISTS owners run)
  execute_process(COMMAND dpkg-query -W -f "\${Version}\t\${Architecture}" ${name} OUTPUT_VARIABLE said
                  ERROR_QUIET RESULT_VARIABLE failed)
  string(REGEX REPLACE "\t.*" "" version "${said}")
  string(REGEX REPLACE ".*\t" "" architecture "${said}")
  if(version STREQUAL "")
    set(version NOASSERTION)
  endif()
  string(REGEX REPLACE "[^A-Za-z0-9.-]" "-" id "${name}")
  set(declared NOASSERTION)
  if(EXISTS /usr/share/doc/${name}/copyright)
    file(READ /usr/share/doc/${name}/copyright text)
    string(REGEX MATCHALL "\nLicense: *[^\n]+" stated "\n${text}")
    list(TRANSFORM stated REPLACE "\nLicense: *" "")
    list(SORT stated)
    list(REMOVE_DUPLICATES stated)
    list(JOIN stated ", " stated)
    if(stated STREQUAL "")
      set(stated "as in the text")
    endif()
    quote("${stated}" stated)
    quote("${text}" text)
    set(declared LicenseRef-${id})
    add(licences "{\"licenseId\": \"${declared}\", \"name\": ${stated}, \"extractedText\": ${text}}")
  endif()
  quote("${version}" quoted_version)
  string(REPLACE "+" "%2B" url "${name}@${version}?arch=${architecture}")
  add(packages "{\"SPDXID\": \"SPDXRef-Package-${id}\", \"name\": \"${name}\", \"versionInfo\": ${quoted_version}, \"supplier\": \"Organization: Debian\", \"downloadLocation\": \"NOASSERTION\", \"filesAnalyzed\": false, \"licenseConcluded\": \"NOASSERTION\", \"licenseDeclared\": \"${declared}\", \"copyrightText\": \"NOASSERTION\", \"externalRefs\": [{\"referenceCategory\": \"PACKAGE-MANAGER\", \"referenceType\": \"purl\", \"referenceLocator\": \"pkg:deb/debian/${url}\"}]}")
  if(name IN_LIST run)
    add(relations "{\"spdxElementId\": \"SPDXRef-Package-${id}\", \"relationshipType\": \"RUNTIME_DEPENDENCY_OF\", \"relatedSpdxElement\": \"SPDXRef-Package-tankside\"}")
  else()
    add(relations "{\"spdxElementId\": \"SPDXRef-Package-tankside\", \"relationshipType\": \"DYNAMIC_LINK\", \"relatedSpdxElement\": \"SPDXRef-Package-${id}\"}")
  endif()
endforeach()

# ---- written ---------------------------------------------------------------------
quote(".${SBOM}" excluded)
set(own "{\"SPDXID\": \"SPDXRef-Package-tankside\", \"name\": \"tankside\", \"versionInfo\": \"${VERSION}\", \"downloadLocation\": \"NOASSERTION\", \"filesAnalyzed\": true, \"packageVerificationCode\": {\"packageVerificationCodeValue\": \"${code}\", \"packageVerificationCodeExcludedFiles\": [${excluded}]}, \"licenseConcluded\": \"NOASSERTION\", \"licenseDeclared\": \"NOASSERTION\", \"licenseInfoFromFiles\": [\"NOASSERTION\"], \"copyrightText\": \"NOASSERTION\"}")
# The name of this document is made of what is in it.
string(SHA256 all "${files}${packages}${licences}")
string(UUID uuid NAMESPACE 6ba7b811-9dad-11d1-80b4-00c04fd430c8 NAME "tankside-${VERSION}-${all}" TYPE SHA1)
file(WRITE "${TREE}${SBOM}" "{
\"spdxVersion\": \"SPDX-2.3\",
\"dataLicense\": \"CC0-1.0\",
\"SPDXID\": \"SPDXRef-DOCUMENT\",
\"name\": \"tankside-${VERSION}\",
\"documentNamespace\": \"urn:uuid:${uuid}\",
\"creationInfo\": {\"created\": \"${created}\", \"creators\": [\"Tool: tankside-build-${VERSION}\"]},
\"documentDescribes\": [\"SPDXRef-Package-tankside\"],
\"packages\": [
  ${own},
  ${packages}
],
\"files\": [
  ${files}
],
\"hasExtractedLicensingInfos\": [
  ${licences}
],
\"relationships\": [
  {\"spdxElementId\": \"SPDXRef-DOCUMENT\", \"relationshipType\": \"DESCRIBES\", \"relatedSpdxElement\": \"SPDXRef-Package-tankside\"},
  ${relations}
]
}
")
file(CHMOD "${TREE}${SBOM}" FILE_PERMISSIONS OWNER_READ OWNER_WRITE GROUP_READ WORLD_READ)
