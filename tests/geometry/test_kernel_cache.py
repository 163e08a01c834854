"""Where machine code is kept, and when all of it is said to be there."""

import os
import stat
import subprocess
import sys
import tempfile
from pathlib import Path

import pytest

from viewer.geometry import kernel_cache
from viewer.geometry.kernel_cache import (
    cache_folder,
    kernel_files,
    kernels_kept_but_not_ready,
    kernels_ready,
    say_kernels_are_ready,
)

REPOSITORY = Path(__file__).parents[2]
FIRST_MEASURE = """
import numpy as np
from viewer.geometry import kernel_cache
from viewer.geometry.face_neighbours import face_neighbours
print(face_neighbours(np.array([[0, 2, 1], [0, 1, 3], [0, 3, 2], [1, 2, 3]], np.int32)).min())
print(kernel_cache.cache_folder())
"""
posix = pytest.mark.skipif(os.name != "posix", reason="owners and modes of folders are POSIX's")


@pytest.fixture
def own_folder(monkeypatch, tmp_path):
    """The cache folder is `tmp_path`, as if asked for in the environment."""
    monkeypatch.setenv(kernel_cache.SETTING, str(tmp_path))
    kernel_cache._stamp_name.cache_clear()
    yield tmp_path
    kernel_cache._stamp_name.cache_clear()


@pytest.fixture
def no_home(monkeypatch, tmp_path):
    """A user's cache folder that cannot be made, and a temporary folder of the test's own."""
    monkeypatch.setattr(kernel_cache, "_users_folder", lambda: Path(os.devnull) / "cache")
    monkeypatch.setattr(tempfile, "gettempdir", lambda: str(tmp_path))
    cache_folder.cache_clear()
    yield tmp_path
    cache_folder.cache_clear()


def test_ready_only_once_a_warm_up_has_said_so(own_folder):
    assert not kernels_ready()
    assert kernels_kept_but_not_ready()
    say_kernels_are_ready()
    assert kernels_ready()
    assert not kernels_kept_but_not_ready()


def test_a_touched_kernel_file_is_not_ready(own_folder, monkeypatch):
    """Numba compiles anew when a source file has another time, though its text is the same."""
    say_kernels_are_ready()
    copy = own_folder / "kernel.py"
    copy.write_text("from x import compiled\n")
    monkeypatch.setattr(kernel_cache, "kernel_files", lambda package: [copy])
    kernel_cache._stamp_name.cache_clear()
    assert not kernels_ready()
    say_kernels_are_ready()
    assert kernels_ready()
    os.utime(copy, (1, 1))
    kernel_cache._stamp_name.cache_clear()
    assert not kernels_ready()


def test_every_module_with_kernels_counts_and_no_other():
    names = {path.name for path in kernel_files(kernel_cache.PACKAGE)}
    assert {"compiled.py", "supports.py", "column_field.py", "stl_text.py"} <= names
    assert not any(name.startswith("plain_") for name in names)
    assert "kernel_cache.py" not in names


@posix
def test_without_a_home_code_is_kept_in_a_private_temporary_folder(no_home):
    folder = cache_folder()
    assert folder.is_dir()
    private = no_home / f"showside-{os.getuid()}"
    assert private in folder.parents
    assert stat.S_IMODE(private.stat().st_mode) == 0o700


@posix
@pytest.mark.parametrize("planted", ["open to all", "a link", "a file"])
def test_a_temporary_folder_that_others_could_write_to_is_not_used(no_home, planted):
    """Machine code is loaded from there; somebody else may have put it there."""
    private = no_home / f"showside-{os.getuid()}"
    if planted == "open to all":
        private.mkdir()
        private.chmod(0o777)
    elif planted == "a link":
        (no_home / "elsewhere").mkdir(mode=0o700)
        private.symlink_to(no_home / "elsewhere")
    else:
        private.write_text("")
    assert cache_folder() is None


@posix
def test_a_program_without_home_or_temporary_folder_still_measures(tmp_path):
    """Run from a folder that is no place to write to either; nothing may be left in it."""
    inherited = {key: value for key, value in os.environ.items() if key != "NUMBA_CACHE_DIR"}
    nowhere = dict.fromkeys(("HOME", "XDG_CACHE_HOME"), "/dev/null/none")
    run = [sys.executable, "-B", "-c", FIRST_MEASURE]
    done = subprocess.run(
        run, env={**inherited, **nowhere, "TMPDIR": str(tmp_path), "PYTHONPATH": str(REPOSITORY)},
        capture_output=True, text=True, cwd="/", check=True,
    )  # fmt: skip
    answer, folder = done.stdout.split()
    assert answer == "0"  # a closed tetrahedron has a neighbour across every edge
    assert tmp_path in Path(folder).parents
    assert list(Path(folder).rglob("*.nbc"))


def test_asking_whether_kernels_are_ready_loads_no_compiler():
    program = (
        "import sys; from viewer.geometry.kernel_cache import kernels_ready; kernels_ready();"
        "assert 'numba' not in sys.modules and 'numpy' not in sys.modules"
    )
    subprocess.run([sys.executable, "-c", program], check=True, cwd=REPOSITORY)
