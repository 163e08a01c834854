"""What measuring and checking a part answers, kept from one window test for the next.

Both depend on nothing but what they are given and the language, and hold answers that nobody can
change: most window tests show one of the same few parts, whose numbers tests/geometry looks at.
"""

from collections import OrderedDict
from collections.abc import Callable, Hashable
from threading import Lock
from typing import Any

import numpy as np

from viewer.geometry.measure_pose import measure_pose
from viewer.geometry.mesh import Mesh
from viewer.geometry.mesh_health import check_mesh
from viewer.geometry.prepared_part import PreparedPart
from viewer.progress import Progress
from viewer.words import spoken_language

KEPT = 200
LARGE_FACES = 20_000  # tests with larger parts want them to take their time


def _content(given: object) -> Hashable:
    if isinstance(given, PreparedPart):
        return _content(given.mesh)
    if isinstance(given, Mesh):
        return _content(given.vertices_mm), _content(given.faces)
    if isinstance(given, np.ndarray):
        return given.shape, str(given.dtype), given.tobytes()
    return given


class Once:
    """A function without memory, and the answers to the last questions it was asked."""

    def __init__(self, function: Callable[..., Any]) -> None:
        self._function, self._lock = function, Lock()
        self._answers: OrderedDict[Hashable, Any] = OrderedDict()

    def __call__(self, part: PreparedPart | Mesh, *given: Any, progress: Progress, **named: Any):
        """The answer; it can be cancelled like the function itself."""
        progress.check()
        if (part.mesh if isinstance(part, PreparedPart) else part).face_count > LARGE_FACES:
            return self._function(part, *given, progress=progress, **named)
        asked = (spoken_language(), _content(part), *map(_content, given), *sorted(named.items()))
        with self._lock:
            if asked in self._answers:
                self._answers.move_to_end(asked)
                return self._answers[asked]
        answer = self._function(part, *given, progress=progress, **named)
        with self._lock:
            self._answers[asked] = answer
            if len(self._answers) > KEPT:
                self._answers.popitem(last=False)
        return answer


MEASURED, CHECKED = Once(measure_pose), Once(check_mesh)
