"""Files made on the spot for the tests of this folder: a box as STL bytes, 3MF packages by hand."""

import io
import zipfile

import numpy as np

from viewer.document.state import Part, State
from viewer.geometry.mesh import Mesh

CORE = "http://schemas.microsoft.com/3dmanufacturing/core/2015/02"
SETS = "http://schemas.microsoft.com/3dmanufacturing/trianglesets/2021/07"

_BOX_FACES = np.array(
    [
        [0, 2, 1], [1, 2, 3], [4, 5, 6], [5, 7, 6], [0, 1, 4], [1, 5, 4],
        [2, 6, 3], [3, 6, 7], [0, 4, 2], [2, 4, 6], [1, 3, 5], [3, 7, 5],
    ]
)  # fmt: skip


def box_mesh(x_mm: float, y_mm: float, z_mm: float) -> Mesh:
    """A closed box of 12 triangles from the origin to (x, y, z), outward winding."""
    corners = [[x, y, z] for z in (0.0, z_mm) for y in (0.0, y_mm) for x in (0.0, x_mm)]
    return Mesh(np.array(corners), _BOX_FACES)


def box_state(x_mm: float = 10.0, y_mm: float = 20.0, z_mm: float = 30.0, **more) -> State:
    """A fresh state with a box."""
    return State.of_part(Part("box", box_mesh(x_mm, y_mm, z_mm)), **more)


def binary_stl(corners: np.ndarray, header: bytes = b"") -> bytes:
    """(m, 3, 3) corners as a binary STL, written field by field as the format is described."""
    facets = b"".join(
        np.zeros(3, "<f4").tobytes() + np.asarray(facet, "<f4").tobytes() + b"\0\0"
        for facet in corners
    )
    return header.ljust(80, b"\0") + len(corners).to_bytes(4, "little") + facets


def text_stl(corners: np.ndarray) -> bytes:
    """(m, 3, 3) corners as a text STL with every digit."""
    lines = ["solid made here"]
    for facet in corners.tolist():
        lines += ["facet normal 0 0 0", " outer loop"]
        lines += [f"  vertex {x!r} {y!r} {z!r}" for x, y, z in facet]
        lines += [" endloop", "endfacet"]
    return "\n".join([*lines, "endsolid made here", ""]).encode()


def mesh_xml(mesh: Mesh, inside: str = "") -> str:
    """The <mesh> element of a mesh; `inside` goes to its end, such as triangle sets."""
    vertices = "".join(
        f'<vertex x="{x!r}" y="{y!r}" z="{z!r}"/>' for x, y, z in mesh.vertices_mm.tolist()
    )
    triangles = "".join(
        f'<triangle v1="{a}" v2="{b}" v3="{c}"/>' for a, b, c in mesh.faces.tolist()
    )
    return f"<mesh><vertices>{vertices}</vertices><triangles>{triangles}</triangles>{inside}</mesh>"


def box_xml(object_id: int, kind: str = "model", mesh: Mesh | None = None) -> str:
    """An <object> holding a box 10 × 20 × 30, or the mesh given."""
    body = mesh_xml(mesh or box_mesh(10.0, 20.0, 30.0))
    return f'<object id="{object_id}" type="{kind}">{body}</object>'


def package_3mf(
    resources: str, build: str, unit: str = "millimeter", more: dict[str, bytes] | None = None
) -> bytes:
    """A 3MF package with the given <resources> and <build> content, and more parts by name."""
    model = (
        '<?xml version="1.0" encoding="UTF-8"?>'
        f'<model unit="{unit}" xmlns="{CORE}" xmlns:t="{SETS}">'
        f"<resources>{resources}</resources><build>{build}</build></model>"
    )
    types = (
        '<?xml version="1.0" encoding="UTF-8"?>'
        '<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types">'
        '<Default Extension="rels" '
        'ContentType="application/vnd.openxmlformats-package.relationships+xml"/>'
        '<Default Extension="model" '
        'ContentType="application/vnd.ms-package.3dmanufacturing-3dmodel+xml"/></Types>'
    )
    relations = (
        '<?xml version="1.0" encoding="UTF-8"?>'
        '<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships">'
        '<Relationship Target="/3D/3dmodel.model" Id="rel0" '
        'Type="http://schemas.microsoft.com/3dmanufacturing/2013/01/3dmodel"/></Relationships>'
    )
    stream = io.BytesIO()
    with zipfile.ZipFile(stream, "w", zipfile.ZIP_DEFLATED) as package:
        package.writestr("[Content_Types].xml", types)
        package.writestr("_rels/.rels", relations)
        package.writestr("3D/3dmodel.model", model)
        for name, content in (more or {}).items():
            package.writestr(name, content)
    return stream.getvalue()
