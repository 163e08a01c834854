"""Compile a numeric loop with numba, keep the machine code in the user's cache folder.

Every kernel releases the GIL, so a worker thread never freezes the window. Where no folder can be
written (read-only install, no home) the code is compiled anew at each start instead of failing.
"""

import os
from collections.abc import Callable
from typing import Any

import platformdirs

# Before numba is imported: otherwise the cache lands beside the source, which may be read-only.
# Passive waiting and the work-queue layer avoid threads that spin on a shared two-core machine.
os.environ.setdefault(
    "NUMBA_CACHE_DIR", str(platformdirs.user_cache_path("showside", appauthor=False) / "compiled")
)
os.environ.setdefault("OMP_WAIT_POLICY", "passive")
os.environ.setdefault("NUMBA_THREADING_LAYER", "workqueue")

import numba


def compiled(function: Callable[..., Any] | None = None, **options: Any) -> Callable[..., Any]:
    """`numba.njit(nogil=True)` with an on-disk cache where one can be written."""
    if function is None:
        return lambda f: compiled(f, **options)
    settings = {"nogil": True, "error_model": "numpy", **options}
    try:
        return numba.njit(cache=True, **settings)(function)
    except RuntimeError:  # numba finds no folder to write to
        return numba.njit(**settings)(function)
