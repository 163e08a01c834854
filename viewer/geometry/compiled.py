"""Compile a numeric loop with numba, keep the machine code in the folder of `kernel_cache`.

Every kernel releases the GIL, so a worker thread never freezes the window. Where no folder can be
written (read-only install, no home) the code is compiled anew at each start instead of failing.
Numba is loaded with the first kernel that is called, since loading it and making four hundred
kernels known to it takes longer than anything else before the first picture.
"""

import os
import sys
from collections.abc import Callable
from functools import update_wrapper
from threading import RLock
from typing import Any

from viewer.geometry.kernel_cache import (
    SETTING,
    cache_folder,
    forget_old_folders,
    kernels_kept_but_not_ready,
)

# Before numba is imported: otherwise the cache lands beside the source, which may be read-only.
# Passive waiting and the work-queue layer avoid threads that spin on a shared two-core machine.
if SETTING not in os.environ:
    _folder = cache_folder()
    if _folder is not None:
        os.environ[SETTING] = str(_folder)
        forget_old_folders(_folder)
os.environ.setdefault("OMP_WAIT_POLICY", "passive")
os.environ.setdefault("NUMBA_THREADING_LAYER", "workqueue")

__all__ = ["LOOK_BITS", "Kernel", "compiled", "intrinsic", "kernels_at_hand"]

# A long kernel looks at its stop flag where these bits of its count are 0: far below every ms.
LOOK_BITS = (1 << 12) - 1

_making = RLock()  # two threads may call their first kernels at the same time


class Kernel:
    """A function that is given to numba with its first call, and then stands for what that made.

    Other kernels call it by its name as they would call what numba makes (`machine_code`).
    """

    def __init__(self, function: Callable[..., Any], make: Callable[[Callable], Callable]) -> None:
        """`make` turns the function into what numba knows."""
        update_wrapper(self, function)
        self._make, self._made = make, None

    def __call__(self, *given: Any, **named: Any) -> Any:
        """Run the machine code."""
        return (self._made or self.made)(*given, **named)

    def __getattr__(self, name: str) -> Any:
        """What numba keeps with a kernel, such as its options and signatures."""
        if name.startswith("__"):  # what Python itself asks of any object
            raise AttributeError(name)
        return getattr(self.made, name)

    @property
    def made(self) -> Callable[..., Any]:
        """What numba made of the function."""
        with _making:
            if self._made is None:
                self._made = self._make(self.__wrapped__)
        return self._made


def compiled(function: Callable[..., Any] | None = None, **options: Any) -> Callable[..., Any]:
    """`numba.njit(nogil=True)` when first called, with a cache on disk where one can be written."""
    if function is None:
        return lambda f: compiled(f, **options)
    return Kernel(function, lambda f: _machine_code().kernel(f, options))


def intrinsic(function: Callable[..., Any]) -> Kernel:
    """`numba.extending.intrinsic` for a function that only kernels call, when first compiled."""
    return Kernel(function, lambda f: _machine_code().intrinsic(f))


def kernels_at_hand() -> bool:
    """Whether a kernel can be called without loading numba, or compiling, before it."""
    return "viewer.geometry.machine_code" in sys.modules and not kernels_kept_but_not_ready()


def _machine_code() -> Any:
    from viewer.geometry import machine_code

    machine_code.take_for_what_was_made(Kernel)
    return machine_code
