"""What the installers are made of: menu entry, kinds of file, icons, licences, the .deb."""

import configparser
import importlib.util
import os
import re
import shutil
import struct
import subprocess
import sys
import tomllib
import xml.etree.ElementTree as ElementTree
from importlib.metadata import PackageNotFoundError, distribution
from pathlib import Path

import pytest
from PIL import Image, features

from viewer import __version__
from viewer.files.mesh_files import OPEN_SUFFIXES
from viewer.window.licences import LIST_FILE, licence_of, licensed_packages

ROOT = Path(__file__).resolve().parents[2]
LINUX = ROOT / "packaging" / "linux"
ID = "org.showside.showside"
MIME = "{http://www.freedesktop.org/standards/shared-mime-info}"


def script(name: str):
    """A script of packaging/ as a module."""
    sys.path.insert(0, str(ROOT / "packaging"))
    try:
        spec = importlib.util.spec_from_file_location(name, ROOT / "packaging" / f"{name}.py")
        module = importlib.util.module_from_spec(spec)
        spec.loader.exec_module(module)
    finally:
        sys.path.pop(0)
    return module


def checked_by(tool: str, *words: str, **options: object) -> str:
    """Have a validator look, where the system has it; returns what it prints as an answer.

    It may warn of nothing: what validators say of lesser faults goes to where errors go.
    """
    if shutil.which(tool) is None:
        pytest.skip(f"{tool} is not installed")
    done = subprocess.run(
        [tool, *words], capture_output=True, text=True, timeout=60, check=False, **options
    )
    assert done.returncode == 0, done.stdout + done.stderr
    assert done.stderr == ""
    return done.stdout


def test_version_and_names_agree():
    project = tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))["project"]
    assert project["version"] == __version__
    info = ElementTree.parse(LINUX / f"{ID}.metainfo.xml").getroot()
    assert info.findtext("id") == ID
    assert info.findtext("launchable") == f"{ID}.desktop"
    assert info.find("releases/release").get("version") == __version__
    assert ID in (ROOT / "viewer" / "app.py").read_text("utf-8")


def test_the_menu_entry_is_valid_and_opens_what_the_program_reads():
    entry = configparser.ConfigParser(interpolation=None)
    entry.optionxform = str
    entry.read(LINUX / f"{ID}.desktop", encoding="utf-8")
    entry = entry["Desktop Entry"]
    assert entry["Exec"] == "showside %f"
    assert entry["Icon"] == ID
    kinds = set(entry["MimeType"].strip(";").split(";"))
    for told in ElementTree.parse(LINUX / f"{ID}.metainfo.xml").iter("mediatype"):
        assert told.text in kinds
    subtypes = {kind.partition("/")[2].removeprefix("x-") for kind in kinds}
    for suffixes in OPEN_SUFFIXES.values():
        assert any(suffix[1:] in subtypes for suffix in suffixes), suffixes
    assert checked_by("desktop-file-validate", str(LINUX / f"{ID}.desktop")) == ""


def test_the_description_for_software_centres_is_valid():
    path = str(LINUX / f"{ID}.metainfo.xml")
    told = checked_by("appstreamcli", "validate", "--no-net", "--pedantic", path)
    assert "Validation was successful" in told
    assert not re.search(r"\b[EWIP]: ", told)
    assert checked_by("xmllint", "--noout", path, str(LINUX / f"{ID}.xml")) == ""


def update_mime(share: Path, *files: Path) -> Path:
    """Let the system make its lists from these files; returns their folder."""
    folder = share / "mime"
    (folder / "packages").mkdir(parents=True)
    for file in files:
        shutil.copy(file, folder / "packages")
    environment = {**os.environ, "XDG_DATA_HOME": str(share)}
    assert checked_by("update-mime-database", str(folder), env=environment) == ""
    return folder


def test_kinds_of_file_that_the_shared_list_lacks(tmp_path):
    root = ElementTree.parse(LINUX / f"{ID}.xml").getroot()
    globs = {glob.get("pattern") for glob in root.iter(f"{MIME}glob")}
    assert {"*.step", "*.stp", "*.ply", "*.off"} <= globs
    folder = update_mime(tmp_path, LINUX / f"{ID}.xml")
    listed = (folder / "globs2").read_text("utf-8")
    for kind, pattern in (("model/step", "*.stp"), ("model/x-ply", "*.ply")):
        assert f":{kind}:{pattern}" in listed
    assert b"ISO-10303-21;" in (folder / "magic").read_bytes()


@pytest.mark.parametrize(
    ("right", "wrong"),
    [('type="string" offset="0"', 'type="strange" offset="0"'), ("</mime-type>", "")],
)
def test_a_fault_in_the_kinds_of_file_is_found(tmp_path, right, wrong):
    """The tool says so where errors go, and ends as if all were well."""
    text = (LINUX / f"{ID}.xml").read_text("utf-8")
    (tmp_path / f"{ID}.xml").write_text(text.replace(right, wrong, 1), "utf-8")
    with pytest.raises(AssertionError):
        update_mime(tmp_path / "share", tmp_path / f"{ID}.xml")


def test_every_kind_of_the_menu_entry_is_known_to_the_system(tmp_path):
    """By the system's shared list, or by ours; some under an older name as well."""
    shared = Path("/usr/share/mime/packages/freedesktop.org.xml")
    if not shared.is_file():
        pytest.skip("shared-mime-info is not installed")
    folder = update_mime(tmp_path, shared, LINUX / f"{ID}.xml")
    known = set(re.findall(r"^\d+:([^:]+):", (folder / "globs2").read_text("utf-8"), re.M))
    known |= {line.split()[0] for line in (folder / "aliases").read_text("utf-8").splitlines()}
    entry = (LINUX / f"{ID}.desktop").read_text("utf-8")
    kinds = re.search(r"^MimeType=(.*)$", entry, re.MULTILINE)[1].strip(";").split(";")
    assert set(kinds) <= known


def test_icons_are_drawn_in_every_size(tmp_path, qapp):
    icons = script("make_icons")
    icons.write_icons(tmp_path)
    for size_px in icons.SIZES_PX:
        path = tmp_path / "hicolor" / f"{size_px}x{size_px}" / "apps" / f"{ID}.png"
        with Image.open(path) as picture:
            assert picture.size == (size_px, size_px)
            assert picture.getextrema()[3] == (0, 255)  # something drawn, on nothing
    assert (tmp_path / "hicolor" / "scalable" / "apps" / f"{ID}.svg").is_file()
    count = struct.unpack("<H", (tmp_path / "showside.ico").read_bytes()[4:6])[0]
    assert count == len(icons.WINDOWS_PX)
    assert (tmp_path / "showside.icns").read_bytes()[:4] == b"icns"


@pytest.mark.parametrize(
    ("licence", "may"),
    [
        ("MIT", True),
        ("BSD-3-Clause AND 0BSD AND MIT AND Zlib AND CC0-1.0", True),
        ("BSD-2-Clause AND Apache-2.0 WITH LLVM-exception", True),
        ("Mozilla Public License 2.0 (MPL 2.0)", True),
        ("LGPL-3.0-only OR GPL-2.0-only OR GPL-3.0-only", True),
        ("GPL-2.0-or-later WITH Bootloader-exception", True),
        ("GPL-3.0-only", False),
        ("GPL-3.0-or-later WITH GCC-exception-3.1", True),
        ("FreeImage", True),
        ("LicenseRef-public-domain", True),
        ("MIT AND GPL-2.0-or-later", False),
        ("BSD-3-Clause AND GPL-3.0-or-later WITH GCC-exception-3.1", False),
        ("GNU General Public License v3 (GPLv3)", False),
        ("AGPL-3.0", False),
        ("Proprietary", False),
        ("", False),
    ],
)
def test_which_licence_may_go_along(licence, may):
    assert script("gather_licences").may_go_along(licence) == may


def test_no_package_that_ships_is_under_the_gpl_alone():
    """Every package of the lock that is installed here; the others are for other systems."""
    gather, folder = script("gather_licences"), script("build_folder")
    seen = []
    for name in folder.names_in(ROOT / "packaging" / "requirements.lock"):
        try:
            package = distribution(name)
        except PackageNotFoundError:
            continue
        assert gather.may_go_along(licence_of(package)), (name, licence_of(package))
        seen.append(name)
    assert {"vtk", "pyside6-essentials", "numba", "cadquery-ocp-novtk", "lib3mf"} <= set(seen)


def test_every_library_within_a_wheel_is_listed_with_licence_and_text():
    """In folders *.libs and elsewhere; the list of a wheel's maker tells the same versions."""
    bundled, gather = script("bundled_libraries"), script("gather_licences")
    wheels = {each.wheel for each in bundled.listed_libraries()}
    assert {"cadquery-ocp-novtk", "numpy", "pillow", "vtk", "pyside6-essentials"} <= wheels
    locked = script("build_folder").names_in(ROOT / "packaging" / "requirements.lock")
    assert wheels <= locked
    assert bundled.unlisted(locked) == []
    for each in bundled.listed_libraries():
        assert gather.may_go_along(each.goes_under), each
        assert each.goes_under == each.licence or each.chosen in each.licence or "(" in each.licence
        assert all(len(text) > 100 for _, text in bundled.texts_of(each)), each
        assert bundled.texts_of(each), each
        assert each.home.startswith("http"), each
        assert bundled.version_of(each), each


@pytest.mark.skipif(sys.platform != "linux", reason="other wheels hold other files")
def test_every_entry_of_the_list_is_there():
    """An entry whose library has gone, or is named otherwise now, would tell of another one."""
    bundled = script("bundled_libraries")
    for each in bundled.listed_libraries():
        names = [Path(place).name for place in bundled.others_libraries_in(each.wheel)]
        for start in each.files:
            assert any(name.startswith(start) for name in names), (each.name, start)


def test_a_library_that_nobody_listed_keeps_a_folder_from_being_made(monkeypatch):
    gather = script("gather_licences")
    bundled = sys.modules["bundled_libraries"]
    assert gather.faults(gather.all_licences()) == []
    listed = bundled.listed_libraries()
    fewer = [each for each in listed if each.name != "FreeImage"]
    assert len(fewer) == len(listed) - 1
    monkeypatch.setattr(bundled, "listed_libraries", lambda: fewer)
    if sys.platform == "linux":
        (fault,) = gather.faults(gather.all_licences())
        assert re.match(r"cadquery_ocp_novtk.libs/libfreeimage-\S+: not in licences/", fault)


def test_a_choice_of_licences_is_made_and_told():
    gather = script("gather_licences")
    listed = {one.name: one for one in gather.all_licences()}
    image = listed["cadquery-ocp-novtk: FreeImage"]
    assert image.licence == "FreeImage"
    assert "it goes along under FreeImage" in dict(image.texts)["About"]
    assert "FreeImage Public License - Version 1.0" in dict(image.texts)["FreeImage.txt"]
    assert listed["cadquery-ocp-novtk: LibRaw"].licence == "LGPL-2.1-only"
    run_time = dict(listed["cadquery-ocp-novtk: libgomp"].texts)
    assert {"GCC-exception-3.1.txt", "GPL-3.0.txt"} <= set(run_time)
    for one in gather.listed_libraries():
        if "GPL" in one.licence and "LGPL" not in one.licence and " WITH " not in one.licence:
            assert one.chosen, one  # the GPL is only ever the choice that was not made
            assert "GPL" not in one.chosen, one


def test_pillow_brings_no_library_under_the_gpl():
    """Its list of parts names one that it may be built with, and is not (libimagequant)."""
    assert not features.check("libimagequant")


def test_every_package_goes_along_with_the_text_of_its_licence(tmp_path, monkeypatch):
    gather = script("gather_licences")
    assert gather.main([str(tmp_path / "licences")]) == 0
    monkeypatch.setattr("viewer.window.licences.resource_file", lambda name: tmp_path / name)
    assert (tmp_path / LIST_FILE).is_file()
    listed = {one.name: one for one in licensed_packages()}
    assert listed == {one.name: one for one in gather.all_licences()}
    if "pyinstaller" in listed:  # its starter goes along, wherever a folder can be packed
        assert "unlimited permission to link or embed" in listed["pyinstaller"].texts[0][1]
    texts = dict(listed["pyside6-essentials"].texts)
    assert "GNU LESSER GENERAL PUBLIC LICENSE" in texts["LGPL-3.0.txt"]
    assert "may be\nreplaced" in texts["Qt-notice.txt"]
    assert "Open CASCADE" in dict(listed["cadquery-ocp-novtk"].texts)["OpenCASCADE-notice.txt"]
    assert all(text.strip() for one in listed.values() for _, text in one.texts)


def test_what_only_tests_need_is_left_out_of_the_packed_program():
    left_out = set(script("build_folder").left_out())
    assert {"pytest", "hypothesis", "scipy", "jsonschema"} <= left_out
    assert not left_out & {"viewer", "numpy", "PySide6", "vtkmodules", "OCP", "rpack", "tomli_w"}


def test_the_deb_holds_program_menu_entry_and_papers(tmp_path, qapp):
    if shutil.which("dpkg-deb") is None:
        pytest.skip("dpkg-deb is not installed")
    folder = tmp_path / "showside"
    licences = folder / "_internal" / "viewer" / "resources" / "licences"
    licences.mkdir(parents=True)
    (licences / "list.json").write_text("[]", encoding="utf-8")
    (folder / "showside").write_text("#!/bin/sh\necho made up\n", encoding="ascii")
    (folder / "showside").chmod(0o700)
    deb = script("build_deb")
    path = deb.build(folder, tmp_path)
    assert path.name == f"showside_{__version__}_amd64.deb"
    listed = subprocess.check_output(["dpkg-deb", "--contents", str(path)], text=True)
    for line in (
        "-rwxr-xr-x root/root", "./opt/showside/showside\n",
        "./usr/bin/showside -> ../../opt/showside/showside",
        f"./usr/share/applications/{ID}.desktop", f"./usr/share/metainfo/{ID}.metainfo.xml",
        f"./usr/share/mime/packages/{ID}.xml", f"./usr/share/icons/hicolor/48x48/apps/{ID}.png",
        "./usr/share/doc/showside/copyright", "./usr/share/doc/showside/licences.json.gz",
    ):  # fmt: skip
        assert line in listed, line
    told = subprocess.check_output(["dpkg-deb", "--field", str(path)], text=True)
    assert f"Version: {__version__}" in told
    assert "libegl1" in told
    root = tmp_path / "root"
    subprocess.run(["dpkg-deb", "--extract", str(path), str(root)], check=True)
    ran = subprocess.check_output([str(root / "usr/bin/showside")], text=True)
    assert ran == "made up\n"


def test_the_windows_installer_compiles(tmp_path):
    if shutil.which("makensis") is None:
        pytest.skip("makensis is not installed")
    folder = tmp_path / "showside"
    (folder / "_internal").mkdir(parents=True)
    (folder / "showside.exe").write_bytes(b"made up")
    (folder / "_internal" / "data").write_bytes(b"made up")
    out = tmp_path / "setup.exe"
    nsi = ROOT / "packaging" / "windows" / "showside.nsi"
    given = [f"-DVERSION={__version__}", f"-DFOLDER={folder}", f"-DOUT={out}"]
    subprocess.run(["makensis", "-V1", *given, "--", str(nsi)], cwd=nsi.parent, check=True)
    assert out.read_bytes()[:2] == b"MZ"


@pytest.mark.skipif(shutil.which("bash") is None, reason="bash is not installed")
def test_the_recipe_for_macos_can_be_read():
    """It cannot be run elsewhere."""
    recipe = ROOT / "packaging" / "macos" / "build_app.sh"
    assert checked_by("bash", "-n", str(recipe)) == ""


@pytest.mark.parametrize("recipe", ["windows/showside.nsi", "macos/build_app.sh"])
def test_what_was_never_run_says_so(recipe):
    """Whoever runs one for the first time takes the line away, and this one with it."""
    assert "NOT RUN HERE:" in (ROOT / "packaging" / recipe).read_text("utf-8")
