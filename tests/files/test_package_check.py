"""Packages that would do harm: bombs, lying sizes, DOCTYPE, broken zips."""

import io
import zipfile

import numpy as np
import pytest

from tests.files.made_files import box_xml, package_3mf
from viewer.errors import UnreadableFile
from viewer.files import package_check
from viewer.files.mesh_files import read_part
from viewer.files.package_check import open_package
from viewer.progress import Progress

GOOD = package_3mf(box_xml(1), '<item objectid="1"/>')


def check(tmp_path, content):
    path = tmp_path / "x.3mf"
    path.write_bytes(content)
    return open_package(path, np.frombuffer(content, np.uint8), Progress())


def test_a_good_package_opens(tmp_path):
    assert "3D/3dmodel.model" in check(tmp_path, GOOD).namelist()


def test_a_part_that_swells_too_much_is_refused_without_unpacking_it(tmp_path):
    stream = io.BytesIO(GOOD)
    with zipfile.ZipFile(stream, "a", zipfile.ZIP_DEFLATED) as package:
        package.writestr("Metadata/zeros.bin", bytes(60_000_000))
    with pytest.raises(UnreadableFile, match="would unpack to 60 MB"):
        check(tmp_path, stream.getvalue())


def test_too_many_parts_or_bytes_are_refused(tmp_path, monkeypatch):
    monkeypatch.setattr(package_check, "MOST_ENTRIES", 2)
    with pytest.raises(UnreadableFile, match="in 3 parts"):
        check(tmp_path, GOOD)
    monkeypatch.setattr(package_check, "MOST_ENTRIES", 100)
    monkeypatch.setattr(package_check, "MOST_UNPACKED_BYTES", 1000)
    with pytest.raises(UnreadableFile, match="would unpack"):
        check(tmp_path, GOOD)


@pytest.mark.parametrize("lie", [10, -10, 2**31])
def test_a_size_that_lies_is_refused(tmp_path, lie):
    with zipfile.ZipFile(io.BytesIO(GOOD)) as package:
        true = package.getinfo("3D/3dmodel.model").file_size
    wrong = GOOD.replace(true.to_bytes(4, "little"), (true + lie).to_bytes(4, "little"))
    assert wrong != GOOD
    with pytest.raises(UnreadableFile):
        check(tmp_path, wrong)


def test_a_changed_byte_is_found(tmp_path):
    at = GOOD.index(b"3D/3dmodel.model") + 40
    with pytest.raises(UnreadableFile, match="cannot be unpacked"):
        check(tmp_path, GOOD[:at] + bytes([GOOD[at] ^ 0x55]) + GOOD[at + 1 :])


def test_a_doctype_is_refused_wherever_a_block_ends(tmp_path, monkeypatch):
    monkeypatch.setattr(package_check, "_BLOCK", 7)
    stream = io.BytesIO(GOOD)
    with zipfile.ZipFile(stream, "a") as package:
        package.writestr("3D/other.model", "<?xml version='1.0'?>  <!DOCTYPE a []><model/>")
    with pytest.raises(UnreadableFile, match="DOCTYPE"):
        check(tmp_path, stream.getvalue())


def test_names_from_the_package_never_reach_the_disk(tmp_path):
    inside = tmp_path / "inside"
    inside.mkdir()
    path = inside / "x.3mf"
    path.write_bytes(
        package_3mf(
            box_xml(1), '<item objectid="1"/>', more={"../evil.txt": b"x", "/abs.txt": b"x"}
        )
    )
    assert read_part(path).part.mesh.face_count == 12
    assert [entry.name for entry in tmp_path.rglob("*")] == ["inside", "x.3mf"]
