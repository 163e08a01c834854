"""Inputs for the fuzzing campaign: good files and bad ones of each format, changed at random.

Input number i of a seed is always the same bytes, whatever was asked before.
"""

import io
import random
import re
import struct
import tempfile
import zipfile
from pathlib import Path

from tests.files.made_files import binary_stl, box_mesh, box_xml, package_3mf, text_stl
from tests.files.test_polygon_formats import SPELLINGS
from tests.shapes import c_bracket, cube
from tests.shared_meshes import FOLDER
from viewer.document.state import Part, State
from viewer.files.job_file import write_job
from viewer.files.mesh_files import write_posed

MOST_SEED_BYTES = 300_000
SUFFIXES = {
    "stl": (".stl",), "obj": (".obj",), "ply": (".ply",), "off": (".off",), "3mf": (".3mf",),
    "step": (".step", ".stp"), "iges": (".iges", ".igs"),
}  # fmt: skip
_NUMBERS = [
    b"0", b"-0", b"-1", b"1", b"nan", b"inf", b"-inf", b"1e38", b"1e-45", b"1e999", b"0x10", b"1,5",
    b"4294967295", b"2147483648", b"-2147483648", b"99999999999999999999", b"1.", b".", b"1e", b"",
]  # fmt: skip
_WORDS = [
    b"facet", b"endsolid", b"solid", b"vertex", b"f", b"v", b"l", b"usemtl x", b"mtllib ../../x",
    b"element face 3", b"property list uchar int i", b"format binary_big_endian 1.0", b"end_header",
    b"OFF", b"<!DOCTYPE x>", b"<component objectid=\"1\"/>", b"<object id=\"1\">", b"</mesh>",
    b'<triangle v1="0" v2="0" v3="0"/>',
    b"unit=\"parsec\"", b"#1", b"#999999", b"$", b"*", b"()",
    b"\0", b"\xff\xfe", b"\xef\xbb\xbf", b"\n\n", b"\r", b"\\\n", b" " * 5000, b"9" * 5000,
]  # fmt: skip
_NUMBER = re.compile(rb"[-+]?\d+(?:\.\d*)?(?:[eE][-+]?\d+)?")


def seeds(kind: str) -> list[bytes]:
    """Files to begin with: our own, and of the shared ones those that are small."""
    found = _made(kind)
    for folder in (FOLDER / "nasty", FOLDER / "open"):
        if folder.is_dir():
            for path in sorted(folder.rglob("*")):
                fits = path.suffix.lower() in SUFFIXES[kind] and path.is_file()
                if fits and 0 < path.stat().st_size <= MOST_SEED_BYTES:
                    found.append(path.read_bytes())
    return found


def _made(kind: str) -> list[bytes]:
    corners = box_mesh(10.0, 20.0, 30.0).corners_mm
    if kind == "stl":
        return [binary_stl(corners), text_stl(corners), binary_stl(c_bracket().corners_mm)]
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / f"a.{kind}"
        if kind in ("step", "iges"):
            from tests.files import made_cad

            write = made_cad.write_step if kind == "step" else made_cad.write_iges
            shapes = [made_cad.box(1, 2, 3), made_cad.rounded_boxes(1), made_cad.cylinder(3, 9)]
            return [write(path, shape).read_bytes() for shape in shapes]
        state = State.of_part(Part("cube", cube()))
        if kind == "3mf":
            write_job(state, path)
            nested = '<item objectid="1" transform="1 0 0 0 1 0 0 0 1 5 5 5"/>'
            return [path.read_bytes(), package_3mf(box_xml(1), nested)]
        if kind == "ply":
            write_posed(state, path)
            return [path.read_bytes(), *_spelt(kind)]
    return _spelt(kind)


def _spelt(kind: str) -> list[bytes]:
    return [text for name, text in SPELLINGS.items() if name.endswith(kind)]


def changed(kind: str, beginnings: list[bytes], seed: int, number: int) -> bytes:
    """Input `number` of the campaign `seed`."""
    rng = random.Random(f"{kind} {seed} {number}")
    return change(kind, rng.choice(beginnings), beginnings, rng)


def change(kind: str, content: bytes, beginnings: list[bytes], rng: random.Random) -> bytes:
    """A file changed in some places, a package mostly in what it holds."""
    if kind == "3mf" and rng.random() < 0.8:
        repacked = _repacked(content, beginnings, rng)
        if repacked is not None:
            return repacked
    return _several(content, beginnings, rng)


def _several(content: bytes, beginnings: list[bytes], rng: random.Random) -> bytes:
    made = bytearray(content)
    for _ in range(rng.choice((1, 1, 1, 2, 3, 6))):
        rng.choice(
            (_flip, _cut, _double, _put_word, _put_number, _put_number, _put_integer, _lines)
        )(made, rng)
    if rng.random() < 0.05:
        other = rng.choice(beginnings)
        at = rng.randrange(len(made) + 1)
        made[at:] = other[rng.randrange(len(other) + 1) :]
    return bytes(made)


def _repacked(content: bytes, beginnings: list[bytes], rng: random.Random) -> bytes | None:
    """The package with one of its parts changed, whole as a zip file, so that it is looked into."""
    try:
        with zipfile.ZipFile(io.BytesIO(content)) as package:
            parts = {entry.filename: package.read(entry) for entry in package.infolist()}
    except Exception:
        return None
    if not parts:
        return None
    models = [name for name in parts if name.endswith(".model")]
    name = rng.choice(models if models and rng.random() < 0.7 else sorted(parts))
    parts[name] = _several(parts[name], [parts[name]], rng)
    if rng.random() < 0.05:
        parts["../" * rng.randrange(1, 9) + "out.model"] = parts[name]
    if rng.random() < 0.05:
        del parts[rng.choice(sorted(parts))]
    stream = io.BytesIO()
    with zipfile.ZipFile(
        stream, "w", rng.choice((zipfile.ZIP_STORED, zipfile.ZIP_DEFLATED))
    ) as new:
        for each, text in parts.items():
            new.writestr(each, text)
    return stream.getvalue()


# --- one change
def _flip(made: bytearray, rng: random.Random) -> None:
    for _ in range(rng.choice((1, 1, 4, 30))):
        if made:
            made[rng.randrange(len(made))] ^= 1 << rng.randrange(8)


def _cut(made: bytearray, rng: random.Random) -> None:
    at = rng.randrange(len(made) + 1)
    if rng.random() < 0.3:
        del made[at:]
    else:
        del made[at : at + rng.choice((1, 2, 4, 50, 1000))]


def _double(made: bytearray, rng: random.Random) -> None:
    at = rng.randrange(len(made) + 1)
    made[at:at] = made[at : at + rng.choice((1, 12, 50, 4000))] * rng.choice((1, 1, 2, 20))


def _put_word(made: bytearray, rng: random.Random) -> None:
    at = rng.randrange(len(made) + 1)
    made[at : at + rng.choice((0, 0, 1, 5))] = rng.choice(_WORDS)


def _put_number(made: bytearray, rng: random.Random) -> None:
    start = rng.randrange(len(made) + 1)
    found = _NUMBER.search(made, start) or _NUMBER.search(made)
    if found:
        made[found.start() : found.end()] = rng.choice(_NUMBERS)


def _put_integer(made: bytearray, rng: random.Random) -> None:
    value = rng.choice((0, 1, 2, 255, 256, 65535, 2**31 - 1, 2**31, 2**32 - 1, rng.getrandbits(32)))
    at = 80 if rng.random() < 0.2 else rng.randrange(len(made) + 1)
    made[at : at + 4] = struct.pack(rng.choice("<>") + "I", value)


def _lines(made: bytearray, rng: random.Random) -> None:
    lines = bytes(made).split(b"\n")
    a, b = rng.randrange(len(lines)), rng.randrange(len(lines))
    way = rng.randrange(3)
    if way == 0:
        lines[a], lines[b] = lines[b], lines[a]
    elif way == 1:
        lines.insert(a, lines[b])
    else:
        del lines[a]
    made[:] = b"\n".join(lines)
