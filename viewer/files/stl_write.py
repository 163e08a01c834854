"""Write binary STL (Burns, Automated Fabrication, section 6.5): no unit in it, so always mm."""

from pathlib import Path

import numpy as np

from viewer.files.stl_file import FACET
from viewer.progress import Progress

_ROWS = 20_000  # facets written between two looks at the progress token


def write_stl(
    target: Path, vertices_mm: np.ndarray, faces: np.ndarray, progress: Progress | None = None
) -> None:
    """Write (m, 3) faces of (n, 3) vertices at `target` (not atomic by itself). Raises Cancelled.

    Coordinates are stored in single precision.
    """
    progress = progress or Progress()
    vertices = np.asarray(vertices_mm, np.float32)
    progress.check()
    with target.open("wb") as stream:
        # The header must not begin with "solid": some programs take that for a text file.
        stream.write(b"Binary STL, millimetres".ljust(80, b" "))
        stream.write(np.uint32(len(faces)).astype("<u4").tobytes())
        for start in range(0, len(faces), _ROWS):
            corners = vertices[faces[start : start + _ROWS]]
            facets = np.zeros(len(corners), FACET)
            facets["corners"] = corners
            facets["normal"] = _unit_normals(corners.astype(np.float64))
            stream.write(facets.tobytes())
            progress.report(start / len(faces), "Writing the triangles")


def _unit_normals(corners: np.ndarray) -> np.ndarray:
    """(m, 3) unit normals of (m, 3, 3) corners; zero for faces without area, as STL demands."""
    normals = np.cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0])
    length = np.linalg.norm(normals, axis=1, keepdims=True)
    return np.divide(normals, length, out=np.zeros_like(normals), where=length > 0)
