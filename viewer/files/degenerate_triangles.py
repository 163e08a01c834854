"""Get triangles that name a corner twice past lib3mf, which refuses a whole file for one of them.

Such a triangle has no area and harms nobody, but it is a place in the file that marks count. So
before a second try it is replaced by some proper triangle, and put back afterwards.
"""

import io
import re
import zipfile

import numpy as np

from viewer.progress import Progress

REFUSAL = "Invalid Model Coordinate Indices"

# Which triangle of which object of which part of the package has which corners in truth.
Replaced = dict[tuple[str, int], dict[int, tuple[int, int, int]]]

_TAGS = re.compile(rb"<(?:\w+:)?(object|triangle)\s([^>]*)>")
_ID = re.compile(rb"""\bid\s*=\s*["'](\d+)["']""")
_CORNER = re.compile(rb"""\bv([123])\s*=\s*["']\s*(\d+)\s*["']""")


def replace_degenerate(package: zipfile.ZipFile, progress: Progress) -> tuple[np.ndarray, Replaced]:
    """The package as bytes with proper triangles instead, and what was there. Raises Cancelled."""
    replaced: Replaced = {}
    rebuilt = io.BytesIO()
    with zipfile.ZipFile(rebuilt, "w", zipfile.ZIP_STORED) as target:
        for entry in package.infolist():
            content = package.read(entry)
            if entry.filename.lower().endswith(".model"):
                content = _without_degenerate(entry.filename, content, replaced, progress)
            target.writestr(entry.filename, content)
    data = np.frombuffer(rebuilt.getbuffer(), np.uint8)
    return data, replaced


def _without_degenerate(name: str, content: bytes, replaced: Replaced, progress: Progress) -> bytes:
    pieces, kept_to = [], 0
    object_id, ordinal = -1, 0
    for tag in _TAGS.finditer(content):
        if tag[1] == b"object":
            found = _ID.search(tag[2])
            object_id, ordinal = int(found[1]) if found else -1, 0
            continue
        corners = {int(which): int(index) for which, index in _CORNER.findall(tag[2])}
        if len(corners) == 3 and len(set(corners.values())) < 3:
            true = (corners[1], corners[2], corners[3])
            replaced.setdefault((name.lstrip("/"), object_id), {})[ordinal] = true
            pieces += [content[kept_to : tag.start(2)], b'v1="0" v2="1" v3="2"']
            pieces += [b"/"] if tag[2].rstrip().endswith(b"/") else []
            kept_to = tag.end(2)
        ordinal += 1
        if ordinal % 10_000 == 0:
            progress.report(tag.end() / len(content), "Looking for triangles without area")
    return b"".join([*pieces, content[kept_to:]])


def put_back(faces: np.ndarray, true_corners: dict[int, tuple[int, int, int]]) -> np.ndarray:
    """(m, 3) int32 faces of one object with its degenerate triangles as the file has them."""
    faces = faces.copy()
    for ordinal, corners in true_corners.items():
        faces[ordinal] = corners
    return faces
