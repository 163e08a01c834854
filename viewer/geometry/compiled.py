"""Compile a numeric loop with numba, keep the machine code in the folder of `kernel_cache`.

Every kernel releases the GIL, so a worker thread never freezes the window. Where no folder can be
written (read-only install, no home) the code is compiled anew at each start instead of failing.
"""

import os
from collections.abc import Callable
from contextlib import AbstractContextManager
from typing import Any

from viewer.geometry.kernel_cache import SETTING, cache_folder, forget_old_folders

# Before numba is imported: otherwise the cache lands beside the source, which may be read-only.
# Passive waiting and the work-queue layer avoid threads that spin on a shared two-core machine.
if SETTING not in os.environ:
    _folder = cache_folder()
    if _folder is not None:
        os.environ[SETTING] = str(_folder)
        forget_old_folders(_folder)
os.environ.setdefault("OMP_WAIT_POLICY", "passive")
os.environ.setdefault("NUMBA_THREADING_LAYER", "workqueue")

import numba
import numpy as np
from llvmlite import ir
from numba import types
from numba.core.caching import IndexDataCacheFile
from numba.core.typing.typeof import Purpose
from numba.extending import intrinsic, typeof_impl

__all__ = ["LOOK_BITS", "compiled", "intrinsic", "ir", "save_in_turn", "types"]

# Some other library may have imported numba before us, when nothing was set yet.
numba.config.CACHE_DIR = os.environ.get(SETTING, "")

# Arrays of a document are frozen, the same ones on their way there are not: numba would compile a
# kernel for each. None writes to what it was not given to write to, so one does for both.
_type_of_array = typeof_impl.dispatch(np.ndarray)


@typeof_impl.register(np.ndarray)
def _whether_frozen_or_not(array: np.ndarray, context: Any) -> types.Type:
    found = _type_of_array(array, context)
    return found.copy(readonly=False) if context.purpose == Purpose.argument else found


# A long kernel looks at its stop flag where these bits of its count are 0: far below every ms.
LOOK_BITS = (1 << 12) - 1


def compiled(function: Callable[..., Any] | None = None, **options: Any) -> Callable[..., Any]:
    """`numba.njit(nogil=True)` with an on-disk cache where one can be written."""
    if function is None:
        return lambda f: compiled(f, **options)
    settings = {"nogil": True, "error_model": "numpy", **options}
    try:
        return numba.njit(cache=True, **settings)(function)
    except RuntimeError:  # numba finds no folder to write to
        return numba.njit(**settings)(function)


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
