"""What is asked of numba: kernels, frozen arrays taken as others, one writer at a time.

Nothing but `compiled` loads this, when the first kernel is called.
"""

import os
from collections.abc import Callable
from contextlib import AbstractContextManager
from typing import Any

import numba
import numpy as np
from numba import types
from numba.core.caching import IndexDataCacheFile
from numba.core.registry import cpu_target
from numba.core.typing.typeof import Purpose
from numba.extending import typeof_impl

from viewer.geometry.kernel_cache import SETTING

__all__ = ["intrinsic", "kernel", "save_in_turn", "take_for_what_was_made"]

# Some other library may have imported numba before us, when nothing was set yet.
numba.config.CACHE_DIR = os.environ.get(SETTING, "")

# Arrays of a document are frozen, the same ones on their way there are not: numba would compile a
# kernel for each. None writes to what it was not given to write to, so one does for both.
_type_of_array = typeof_impl.dispatch(np.ndarray)


@typeof_impl.register(np.ndarray)
def _whether_frozen_or_not(array: np.ndarray, context: Any) -> types.Type:
    found = _type_of_array(array, context)
    return found.copy(readonly=False) if context.purpose == Purpose.argument else found


def take_for_what_was_made(kind: type) -> None:
    """Let kernels call what is of this kind: they find it among the globals of their module.

    kind : a class with the property `made`, which is something that numba knows
    """
    if kind not in typeof_impl.registry:
        typeof_impl.register(kind)(
            lambda one, context: cpu_target.typing_context.resolve_value_type(one.made)
        )


def kernel(function: Callable[..., Any], options: dict[str, Any]) -> Callable[..., Any]:
    """`numba.njit` of a function, kept on disk if there is a folder for it."""
    settings = {"nogil": True, "error_model": "numpy", **options}
    try:
        return numba.njit(cache=True, **settings)(function)
    except RuntimeError:  # numba finds no folder to write to
        return numba.njit(**settings)(function)


def intrinsic(function: Callable[..., Any]) -> Callable[..., Any]:
    """`numba.extending.intrinsic`, known at once to the kernel that is being compiled."""
    made = numba.extending.intrinsic(function)
    cpu_target.typing_context.refresh()
    return made


def save_in_turn(lock: AbstractContextManager) -> None:
    """Let this process write machine code only while it holds `lock`.

    Numba names the next file of a kernel by what its index holds: of two processes that compile one
    kernel for different arrays at the same time, both would choose the same name.
    """
    save = IndexDataCacheFile.save

    def in_turn(self: IndexDataCacheFile, key: object, data: object) -> None:
        with lock:
            save(self, key, data)

    IndexDataCacheFile.save = in_turn
