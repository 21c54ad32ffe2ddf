"""Holds the list of parts (SPDX 2.3) of an installed tree against the standard and against what is there:

    python3 tests/supply/sbom.py TREE PROGRAM

Required fields and their forms (SPDX 2.3, chapters 6 to 11), ids that lead somewhere, the checksum of every
file, the verification code, every library that ld.so loads, versions and licences as dpkg has them.
"""
import hashlib
import json
import pathlib
import re
import subprocess
import sys

TREE, PROGRAM = pathlib.Path(sys.argv[1]), sys.argv[2]
NAME = "usr/share/doc/tankside/tankside.spdx.json"
document = json.loads((TREE / NAME).read_text(encoding="utf-8"))
problems = []


def ask(true, what):
    if not true:
        problems.append(what)


def form(pattern, value, what):
    ask(isinstance(value, str) and re.fullmatch(pattern, value), f"{what}: {value!r}")


def output(*command):
    return subprocess.run(command, capture_output=True, text=True).stdout


def check_head():
    form(r"SPDX-2\.3", document["spdxVersion"], "version")
    form(r"CC0-1\.0", document["dataLicense"], "licence of the document itself")
    form(r"SPDXRef-DOCUMENT", document["SPDXID"], "id")
    form(r"\S.*", document["name"], "name")
    form(r"[a-z][a-z0-9+.-]*:[^#\s]+", document["documentNamespace"], "namespace, a URI without #")
    form(r"\d{4}-\d\d-\d\dT\d\d:\d\d:\d\dZ", document["creationInfo"]["created"], "created")
    for creator in document["creationInfo"]["creators"]:
        form(r"(Person|Organization|Tool): \S.*", creator, "creator")


def licence(value, what):
    form(r"NOASSERTION|NONE|LicenseRef-[A-Za-z0-9.-]+", value, what)
    if value.startswith("LicenseRef-"):
        ask(value in {one["licenseId"] for one in document["hasExtractedLicensingInfos"]}, f"no text of {value}")


def check_package(package):
    name = package["name"]
    form(r"SPDXRef-[A-Za-z0-9.-]+", package["SPDXID"], "id of a package")
    form(r"\S.*", name, "name of a package")
    form(r"NOASSERTION|NONE|[a-z+]+:.*", package["downloadLocation"], f"where {name} is from")
    licence(package["licenseConcluded"], f"licence of {name}")
    licence(package["licenseDeclared"], f"licence of {name}")
    form(r"\S.*", package["copyrightText"], f"copyright of {name}")
    ask(package["filesAnalyzed"] in (True, False), f"filesAnalyzed of {name}")
    ask(package["filesAnalyzed"] == ("packageVerificationCode" in package), f"verification code of {name}")
    if name == "tankside":
        ask(output(PROGRAM, "--version").startswith(f"tankside {package['versionInfo']}\n"), "another version")
        return
    form(r"pkg:deb/debian/\S+", package["externalRefs"][0]["referenceLocator"], f"purl of {name}")
    version = versions.get(name, "NOASSERTION")
    ask(package["versionInfo"] == version, f"{name} is {version}, not {package['versionInfo']}")
    stated = pathlib.Path(f"/usr/share/doc/{name}/copyright")
    texts = {one["licenseId"]: one["extractedText"] for one in document["hasExtractedLicensingInfos"]}
    if stated.exists():
        plain = re.sub(r"[\x01-\x09\x0b-\x1f]", " ", stated.read_text(encoding="utf-8").replace("\r", "").replace("\t", "\t"))
        said = re.sub(r"[\x01-\x09\x0b-\x1f]", " ", texts.get(package["licenseDeclared"], ""))
        ask(said == plain, f"licence of {name} is not as Debian states it")


def check_files():
    """Each file of the package once, and its sums."""
    there = {str(path.relative_to(TREE)) for path in TREE.rglob("*") if path.is_file()} - {NAME}
    listed = [one["fileName"].removeprefix("./") for one in document["files"]]
    ask(sorted(listed) == sorted(there), f"not the files there are: {sorted(set(listed) ^ there)[:5]}")
    sums = []
    for one in document["files"]:
        form(r"SPDXRef-[A-Za-z0-9.-]+", one["SPDXID"], "id of a file")
        said = {sum["algorithm"]: sum["checksumValue"] for sum in one["checksums"]}
        read = (TREE / one["fileName"]).read_bytes()
        sums.append(hashlib.sha1(read).hexdigest())
        ask(said == {"SHA1": sums[-1], "SHA256": hashlib.sha256(read).hexdigest()}, f"sums of {one['fileName']}")
    code = hashlib.sha1("".join(sorted(sums)).encode()).hexdigest()
    own = next(one for one in document["packages"] if one["name"] == "tankside")["packageVerificationCode"]
    ask(own["packageVerificationCodeValue"] == code, "verification code")
    ask(own["packageVerificationCodeExcludedFiles"] == ["./" + NAME], "what the verification code leaves out")


def check_relations():
    ids = ["SPDXRef-DOCUMENT"] + [one["SPDXID"] for kind in ("packages", "files") for one in document[kind]]
    ask(len(ids) == len(set(ids)), "an id twice")
    for relation in document["relationships"]:
        ask({relation["spdxElementId"], relation["relatedSpdxElement"]} <= set(ids), f"leads nowhere: {relation}")
    of = lambda kind: {(one["spdxElementId"], one["relatedSpdxElement"]) for one in document["relationships"]
                       if one["relationshipType"] == kind}
    ask(of("DESCRIBES") == {("SPDXRef-DOCUMENT", "SPDXRef-Package-tankside")}, "what is described")
    ask({one for _, one in of("CONTAINS")} == {one["SPDXID"] for one in document["files"]}, "what is contained")
    return of


def check_libraries(of):
    """ld.so, which knows, against what the build wrote."""
    loaded = re.findall(r"=> (/\S+)", output("ldd", PROGRAM))
    ask(len(loaded) > 10, "ldd says nothing")
    names = {one["SPDXID"]: one["name"] for one in document["packages"]}
    linked = {names.get(one) for _, one in of("DYNAMIC_LINK")}
    short = [library.removeprefix("/usr") for library in loaded]
    said = output("dpkg-query", "-S", *short, *("/usr" + name for name in short))
    owners = {line.split(":")[0] for line in said.splitlines()}
    ask(owners == linked, f"loaded but not listed, or the reverse: {sorted(map(str, owners ^ linked))}")
    run = {names.get(one) for one, _ in of("RUNTIME_DEPENDENCY_OF")}
    ask(run == {"weasyprint", "fonts-dejavu-core", "fonts-dejavu-extra"}, f"what is run: {run}")


versions = dict(line.split("\t") for line in output("dpkg-query", "-W", "-f", "${Package}\t${Version}\n").splitlines())
check_head()
for package in document["packages"]:
    check_package(package)
check_files()
check_libraries(check_relations())
print("\n".join(problems) or f"{len(document['packages'])} packages, {len(document['files'])} files")
sys.exit(bool(problems))
