"""Whether the files of a pack are what they were written from, found out by reading them again."""

from collections.abc import Mapping
from pathlib import Path

from viewer.document.state import State
from viewer.errors import CannotWrite
from viewer.files.mesh_files import read_part
from viewer.geometry.mesh import Mesh
from viewer.geometry.support_solids import SupportSolids
from viewer.progress import Progress
from viewer.words import say

_WITHIN = 1e-4  # of volume to area: what coordinates in single precision may shift


def read_back_models(
    state: State,
    folder: Path,
    supports: SupportSolids,
    clear: Mesh,
    pieces: Mapping[str, State | Mesh],
    progress: Progress,
) -> None:
    """Read every model again; raises CannotWrite where one is not what it was written from."""
    expected: dict[str, State | Mesh] = dict.fromkeys(
        ("part.3mf", "job.3mf", "supports.3mf", "keep-clear.3mf"), state
    )
    expected |= pieces
    expected |= {
        "part.stl": state.part.mesh, "support-body.stl": supports.body,
        "contact-layers.stl": supports.contact, "keep-clear.stl": clear,
    }  # fmt: skip
    for name, wanted in expected.items():
        if not (folder / name).is_file():
            continue
        progress.check()
        again = read_part(folder / name, unit="mm" if name.endswith(".stl") else None)
        same = _same(again.part.mesh, wanted.part.mesh if isinstance(wanted, State) else wanted)
        if isinstance(wanted, State):
            same = same and (again.face_classes == wanted.face_classes).all()
        if not same:
            raise _damaged(name)


def _same(found: Mesh, mesh: Mesh) -> bool:
    return found.face_count == mesh.face_count and abs(
        found.signed_volume_mm3 - mesh.signed_volume_mm3
    ) <= _WITHIN * float(mesh.face_areas_mm2.sum())


def read_back_bytes(folder: Path, contents: Mapping[str, bytes]) -> None:
    """Read files again that were made elsewhere. Raises CannotWrite."""
    for name, content in contents.items():
        if (folder / name).read_bytes() != content:
            raise _damaged(name)


def _damaged(name: str) -> CannotWrite:
    return CannotWrite(
        say("{name} was not read back as it was written; pack the job again.", name=name)
    )
