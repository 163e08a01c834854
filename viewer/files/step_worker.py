"""What the child process does: load the CAD kernel, do one task, hand arrays back through a pipe.

The kernel is native code that can crash, hang or eat all memory on a damaged file. In a process of
its own it takes nothing with it.
"""

import os
from collections.abc import Callable
from dataclasses import dataclass, field
from multiprocessing.connection import Connection
from pathlib import Path

from viewer.files.step_bodies import Body
from viewer.own_process import limit_memory


@dataclass(frozen=True)
class Task:
    """Read a file (`path`), or split again what was read before (`exact` and its `bodies`).

    chord_mm : distance between triangles and surface to aim at
    sew_mm : 0, or the distance within which loose edges are joined
    mm_of_unit : mm of each unit the file may state; empty where its own unit stands
    asked_mm : mm of the unit that overrules the file's; both lengths above are meant after that
    memory_bytes : 0, or the most address space the child may take, where the system can limit it
    """

    chord_mm: float
    sew_mm: float
    path: Path | None = None
    exact: bytes = b""
    bodies: tuple[Body, ...] = ()
    mm_of_unit: dict[str, float] = field(default_factory=dict)
    asked_mm: float = 1.0
    memory_bytes: int = 0


# Messages to the parent: ("doing", fraction, words) any number of times, then ("done", answer) or
# ("refused", why), where why is "memory" or what the kernel said.
def work(pipe: Connection, task: Task) -> None:
    """Entry of the child process."""
    _be_quiet()
    limit_memory(task.memory_bytes)
    try:
        pipe.send(("done", _do(pipe, task)))
    except MemoryError:
        pipe.send(("refused", "memory"))
    except Exception as error:  # the kernel's exceptions have no narrower common base
        pipe.send(("refused", f"{type(error).__name__}: {error}"))


def _do(pipe: Connection, task: Task) -> dict:
    def teller(start: float, end: float) -> Callable[[float, str], None]:
        return lambda part, doing: pipe.send(("doing", start + part * (end - start), doing))

    from viewer.files.step_reading import from_bytes, read_bodies, to_bytes
    from viewer.files.step_sewing import sew
    from viewer.files.step_triangles import triangulate

    scale = 1.0
    if task.path is None:
        placed, answer = from_bytes(task.exact, task.bodies), {}
    else:
        placed, unit = read_bodies(task.path, teller(0.1, 0.5))
        answer = {
            "exact": to_bytes(placed),
            "read": tuple(body for body, _ in placed),
            "unit": unit,
        }
        if task.mm_of_unit:
            scale = task.asked_mm / task.mm_of_unit[unit or "mm"]
    if task.sew_mm > 0.0:
        teller(0.5, 0.6)(0.0, "Sewing the surfaces")
        placed = sew(placed, task.sew_mm / scale)
    answer |= triangulate(placed, task.chord_mm / scale, teller(0.6, 1.0))
    return answer | {"bodies": tuple(body for body, _ in placed)}


def _be_quiet() -> None:
    """Send what the kernel prints nowhere: the output belongs to the parent."""
    nowhere = os.open(os.devnull, os.O_WRONLY)
    for stream in (1, 2):
        os.dup2(nowhere, stream)
    os.close(nowhere)
