"""Compile a numeric loop with numba, keep the machine code in the user's cache folder.

Every kernel releases the GIL, so a worker thread never freezes the window. Where no folder can be
written (read-only install, no home) the code is compiled anew at each start instead of failing.
"""

import hashlib
import os
import shutil
from collections.abc import Callable
from pathlib import Path
from typing import Any

import platformdirs

KEPT_FOLDERS = 3  # of earlier or other versions on the same machine


def kernel_digest(package: Path) -> str:
    """A short hash over all source files of `package` that hold kernels.

    Numba looks only at the file of the kernel it loads, but the machine code holds what the kernel
    calls in other files too; after an update it would mix old and new.
    """
    digest = hashlib.sha256()
    for path in sorted(package.rglob("*.py")):
        source = path.read_bytes()
        if b"compiled" in source:
            digest.update(path.name.encode() + source)
    return digest.hexdigest()[:16]


def cache_folder() -> Path:
    """The folder for this version's machine code, in the user's cache folder."""
    return (
        platformdirs.user_cache_path("showside", appauthor=False)
        / "compiled"
        / kernel_digest(Path(__file__).resolve().parent.parent)
    )


def forget_old_folders(folder: Path) -> None:
    """Delete the machine code of other versions beside `folder`, all but the latest few."""
    try:
        others = [each for each in folder.parent.iterdir() if each != folder and each.is_dir()]
        others.sort(key=lambda each: each.stat().st_mtime, reverse=True)
    except OSError:
        return  # nothing there yet, or not ours to tidy
    for each in others[KEPT_FOLDERS:]:
        shutil.rmtree(each, ignore_errors=True)


# Before numba is imported: otherwise the cache lands beside the source, which may be read-only.
# Passive waiting and the work-queue layer avoid threads that spin on a shared two-core machine.
if "NUMBA_CACHE_DIR" not in os.environ:
    os.environ["NUMBA_CACHE_DIR"] = str(cache_folder())
    forget_old_folders(cache_folder())
os.environ.setdefault("OMP_WAIT_POLICY", "passive")
os.environ.setdefault("NUMBA_THREADING_LAYER", "workqueue")

import numba  # noqa: E402 (after the settings above)

# Some other library may have imported numba before us, when nothing was set yet.
numba.config.CACHE_DIR = os.environ["NUMBA_CACHE_DIR"]


def compiled(function: Callable[..., Any] | None = None, **options: Any) -> Callable[..., Any]:
    """`numba.njit(nogil=True)` with an on-disk cache where one can be written."""
    if function is None:
        return lambda f: compiled(f, **options)
    settings = {"nogil": True, "error_model": "numpy", **options}
    try:
        return numba.njit(cache=True, **settings)(function)
    except RuntimeError:  # numba finds no folder to write to
        return numba.njit(**settings)(function)
