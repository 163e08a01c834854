"""Write pieces of a job as they stand: one file a piece, or of several bodies one a body in STL."""

from pathlib import Path

from viewer.document.job_piece import JobPiece
from viewer.document.piece_state import as_own_job
from viewer.document.state import State
from viewer.errors import CannotWrite
from viewer.files.atomic_write import make_folder, replacing
from viewer.files.posed_files import write_posed
from viewer.files.stl_write import write_stl
from viewer.files.threemf_objects import PrintObject, write_objects
from viewer.files.threemf_write import separate_corners
from viewer.progress import Progress
from viewer.words import say

SUFFIXES = (".3mf", ".stl")
# Okabe & Ito: bluish green for the model, orange for the other material.
_COLOURS = {"model": (0, 158, 115), "support": (230, 159, 0)}


def write_piece(
    state: State, piece: JobPiece, path: Path, progress: Progress | None = None
) -> tuple[Path, ...]:
    """Write one piece of a job as .3mf or .stl, whichever suffix `path` has; returns the files.

    Several bodies stand together in one 3MF, each with the colour of its material; in STL each has
    a file of its own, named after it. Raises CannotWrite, Cancelled.
    """
    progress = progress or Progress()
    if path.suffix.lower() not in SUFFIXES:
        raise CannotWrite(
            say(
                "{name} was not saved: end its name in one of {known}.",
                name=path.name,
                known=", ".join(SUFFIXES),
            )
        )
    if len(piece.bodies) == 1:
        write_posed(as_own_job(state, piece), path, progress, finer=True)
        return (path,)
    laid = piece.laid_mm
    if path.suffix.lower() == ".stl":
        paths = [
            path.with_name(f"{path.stem}-{plain_name(b.name)}{path.suffix}") for b in piece.bodies
        ]
        for body, vertices, own in zip(piece.bodies, laid, paths, strict=True):
            with replacing(own, progress) as temporary:
                write_stl(temporary, vertices, body.mesh.faces, progress)
        return tuple(paths)
    objects = []
    for body, vertices in zip(piece.bodies, laid, strict=True):
        points, faces = separate_corners(vertices, body.mesh.faces)
        colour = _COLOURS[body.material]
        objects.append(PrintObject(body.name, "model", points, faces, colour=colour))
    with replacing(path, progress) as temporary:
        write_objects(temporary, objects, progress)
    return (path,)


def write_pieces(
    state: State, folder: Path, suffix: str, progress: Progress | None = None
) -> tuple[Path, ...]:
    """Write all pieces of a job into a folder, each under its name. Raises as `write_piece`."""
    progress = progress or Progress()
    make_folder(folder)
    written: list[Path] = []
    names: set[str] = set()
    for number, piece in enumerate(state.pieces):
        name = plain_name(piece.name) or "piece"
        while name in names:
            name += "-2"
        names.add(name)
        share = progress.part(number / len(state.pieces), (number + 1) / len(state.pieces))
        written += write_piece(state, piece, folder / f"{name}{suffix}", share)
    return tuple(written)


def plain_name(name: str) -> str:
    """A name in small letters, digits and hyphens."""
    kept = "".join(c if c.isalnum() or c == "_" else "-" for c in name.lower())
    return "-".join(word for word in kept.split("-") if word)
