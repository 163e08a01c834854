"""Where the machine code of the kernels is kept, and whether all of it is there; imports no numba.

It is kept in the user's cache folder; where that cannot be written (no home, read-only) in a folder
of the system's temporary one that nobody else may enter; and where not even that works, nowhere.
A finished warm-up (`viewer.command.warm_up`) leaves a small file beside the code, named after all
that numba looks at before it uses code again.
"""

import hashlib
import os
import platform
import re
import shutil
import stat
import sys
import tempfile
from functools import cache
from importlib.metadata import PackageNotFoundError, version
from pathlib import Path

import platformdirs

KEPT_FOLDERS = 3  # of earlier or other versions on the same machine
SETTING = "NUMBA_CACHE_DIR"
SETTINGS_IN = ("compiled.py", "machine_code.py")  # how all kernels are compiled
_HOLDS_KERNELS = re.compile(rb"^from \S+ import compiled\b", re.MULTILINE)


PACKAGE = Path(__file__).resolve().parent.parent


@cache
def kernel_files(package: Path) -> list[Path]:
    """The source files of `package` that hold kernels, sorted; looked for once.

    A packed program carries them as well; where it should not, the program itself stands for them.
    """
    found = [
        path
        for path in sorted(package.rglob("*.py"))
        if path.name in SETTINGS_IN or _holds_kernels(path.read_bytes())
    ]
    return found or [Path(sys.executable)]


def _holds_kernels(source: bytes) -> bool:
    return b" import compiled" in source and _HOLDS_KERNELS.search(source) is not None


def kernel_digest(package: Path) -> str:
    """A short hash over all source files of `package` that hold kernels.

    Numba looks only at the file of the kernel it loads, but the machine code holds what the kernel
    calls in other files too; after an update it would mix old and new.
    """
    digest = hashlib.sha256()
    for path in kernel_files(package):
        digest.update(path.name.encode() + path.read_bytes())
    return digest.hexdigest()[:16]


@cache
def present_digest() -> str:
    """`kernel_digest` of this program."""
    return kernel_digest(PACKAGE)


@cache
def cache_folder() -> Path | None:
    """The folder for this version's machine code, made if need be; None where nothing is kept."""
    for base in (_users_folder, _private_temporary_folder):
        folder = base()
        if folder is None:
            continue
        folder = folder / "compiled" / present_digest()
        if _can_be_written(folder):
            return folder
    return None


def _users_folder() -> Path:
    return platformdirs.user_cache_path("showside", appauthor=False)


def _private_temporary_folder() -> Path | None:
    """A folder of the user's own in the temporary one; None where it is not safely theirs.

    Machine code is loaded from there, so nobody else may have made it or be able to write to it.
    """
    try:
        folder = Path(tempfile.gettempdir()) / f"showside-{_user()}"
        if folder.parent == Path.cwd():  # what Python falls back to where there is no such folder
            return None
        folder.mkdir(mode=0o700, exist_ok=True)
        found = folder.lstat()
    except OSError:
        return None
    if not stat.S_ISDIR(found.st_mode):
        return None
    if hasattr(os, "getuid") and (found.st_uid != os.getuid() or found.st_mode & 0o077):
        return None
    return folder


def _user() -> str:
    return str(os.getuid()) if hasattr(os, "getuid") else os.environ.get("USERNAME", "user")


def _can_be_written(folder: Path) -> bool:
    try:
        folder.mkdir(parents=True, exist_ok=True)
        with tempfile.TemporaryFile(dir=folder):
            return True
    except OSError:
        return False


def forget_old_folders(folder: Path) -> None:
    """Delete the machine code of other versions beside `folder`, all but the latest few."""
    try:
        others = [each for each in folder.parent.iterdir() if each != folder and each.is_dir()]
        others.sort(key=lambda each: each.stat().st_mtime, reverse=True)
    except OSError:
        return  # nothing there yet, or not ours to tidy
    for each in others[KEPT_FOLDERS:]:
        shutil.rmtree(each, ignore_errors=True)


def kernels_ready() -> bool:
    """Whether a warm-up of this version has finished, so that nothing is left to compile."""
    folder = folder_in_use()
    return folder is not None and (folder / _stamp_name()).is_file()


def kernels_kept_but_not_ready() -> bool:
    """Whether it is worth compiling them in another process, to be loaded in this one."""
    return folder_in_use() is not None and not kernels_ready()


def say_kernels_are_ready() -> None:
    """Leave the stamp; called at the end of a warm-up. Where nothing is kept, nothing happens."""
    folder = folder_in_use()
    if folder is not None and _can_be_written(folder):
        (folder / _stamp_name()).write_text("all kernels are compiled\n", encoding="ascii")


def folder_in_use() -> Path | None:
    """What was asked for in the environment, or our own."""
    chosen = os.environ.get(SETTING)
    return Path(chosen) if chosen else cache_folder()


@cache
def _stamp_name() -> str:
    """Numba keeps code apart by Python, by itself, and by place and time of each source file."""
    try:
        numba = version("numba")
    except PackageNotFoundError:  # a frozen program may not carry such data
        numba = ""
    made_for = [present_digest(), *sys.version_info[:2], numba, platform.machine()]
    for path in kernel_files(PACKAGE):
        found = path.stat()
        made_for += [path, found.st_mtime_ns, found.st_size]
    return f"ready-{hashlib.sha256(repr(made_for).encode()).hexdigest()[:16]}.txt"
