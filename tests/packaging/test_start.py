"""The set-up script: what it says and leaves behind when something stands in its way."""

import importlib.util
import os
import re
import shutil
import signal
import subprocess
import sys
from pathlib import Path
from types import ModuleType

import pytest

ROOT = Path(__file__).resolve().parents[2]


@pytest.fixture
def start() -> ModuleType:
    spec = importlib.util.spec_from_file_location("start", ROOT / "packaging" / "start.py")
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


@pytest.fixture
def checkout(tmp_path: Path) -> Path:
    """A folder with the set-up script and a lock that cannot be fetched."""
    (tmp_path / "packaging").mkdir()
    shutil.copy(ROOT / "packaging" / "start.py", tmp_path / "packaging")
    for name in ("requirements.lock", "requirements-test.lock"):
        (tmp_path / "packaging" / name).write_text(f"numpy==2.0.0 --hash=sha256:{'0' * 64}\n")
    return tmp_path


def run(checkout: Path, *words: str) -> subprocess.CompletedProcess:
    nowhere = {"PIP_INDEX_URL": "http://127.0.0.1:9/", "PIP_RETRIES": "0", "PIP_FIND_LINKS": ""}
    return subprocess.run(
        [sys.executable, str(checkout / "packaging" / "start.py"), *words],
        env={**os.environ, **nowhere, "PIP_CONFIG_FILE": os.devnull},
        capture_output=True, text=True, timeout=240,
    )  # fmt: skip


@pytest.mark.parametrize("version", [(3, 9, 2), (3, 10, 12), (3, 15, 0), (4, 0, 0)])
def test_a_python_that_does_not_fit_is_named(
    start: ModuleType, monkeypatch: pytest.MonkeyPatch, version: tuple[int, ...]
) -> None:
    monkeypatch.setattr(sys, "version_info", version)
    with pytest.raises(start.CannotSetUp, match=rf"this is {version[0]}\.{version[1]}\."):
        start.check_computer()


@pytest.mark.parametrize(
    ("system", "machine", "libc", "fits"),
    [
        ("linux", "x86_64", ("glibc", "2.36"), True),
        ("linux", "x86_64", ("glibc", "2.31"), False),
        ("linux", "x86_64", ("", ""), False),  # musl
        ("linux", "aarch64", ("glibc", "2.39"), False),
        ("win32", "AMD64", ("", ""), True),
        ("win32", "ARM64", ("", ""), False),
        ("darwin", "arm64", ("", ""), True),
        ("darwin", "x86_64", ("", ""), False),
    ],
)
def test_computers_without_ready_made_packages_are_refused(
    start: ModuleType, monkeypatch: pytest.MonkeyPatch,
    system: str, machine: str, libc: tuple[str, str], fits: bool,
) -> None:  # fmt: skip
    monkeypatch.setattr(sys, "platform", system)
    monkeypatch.setattr(start.platform, "machine", lambda: machine)
    monkeypatch.setattr(start.platform, "libc_ver", lambda: libc)
    if fits:
        start.check_computer()
    else:
        with pytest.raises(start.CannotSetUp, match="Debian 12"):
            start.check_computer()


@pytest.mark.skipif(sys.platform != "linux", reason="system packages are a matter of Linux")
def test_missing_libraries_become_one_line_to_type(
    start: ModuleType, monkeypatch: pytest.MonkeyPatch
) -> None:
    def load(name: str) -> object:
        if name in ("libGL.so.1", "libxcb-cursor.so.0"):
            raise OSError(name)
        return object()

    programs = {"apt-get": "apt-get", "Xvfb": None, "xauth": "xauth", "sudo": None}
    monkeypatch.setattr(start.ctypes, "CDLL", load)
    monkeypatch.setattr(start.shutil, "which", programs.get)
    monkeypatch.setattr(start.os, "geteuid", lambda: 1000)
    assert start.missing_system_packages(for_tests=False) == ["libgl1", "libxcb-cursor0"]
    missing = start.missing_system_packages(for_tests=True)
    assert missing == ["libgl1", "libxcb-cursor0", "xvfb"]
    with pytest.raises(
        start.CannotSetUp,
        match=r"sudo apt-get install -y --no-install-recommends libgl1 libxcb-cursor0 xvfb$",
    ):
        start.install_system_packages(missing)


@pytest.mark.skipif(sys.platform != "linux", reason="system packages are a matter of Linux")
def test_whoever_may_use_sudo_without_password_types_nothing(
    start: ModuleType, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    """With the lists of packages absent the first try fails; they are fetched, then it works."""
    log = tmp_path / "log.txt"
    scripts = {
        "sudo": 'test "$1" = -n || exit 9\nshift\nexec "$@"\n',
        "apt-get": f'echo "$1" >> {log}\ntest "$(grep -c . {log})" -ge 2\n',
    }
    for name, body in scripts.items():
        (tmp_path / name).write_text("#!/bin/sh\n" + body)
        (tmp_path / name).chmod(0o755)
    monkeypatch.setenv("PATH", f"{tmp_path}:{os.environ['PATH']}")
    monkeypatch.setattr(start.os, "geteuid", lambda: 1000)
    start.install_system_packages(["libgl1"])
    assert log.read_text().split() == ["install", "update", "install"]


@pytest.mark.skipif(sys.platform != "linux", reason="system packages are a matter of Linux")
def test_a_browser_is_welcome_but_not_needed(
    start: ModuleType, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture
) -> None:
    asked = []

    def refuse(packages: list[str]) -> None:
        asked.append(packages)
        raise start.CannotSetUp("no")

    monkeypatch.setattr(start, "install_system_packages", refuse)
    monkeypatch.setattr(start.shutil, "which", {"google-chrome": "there"}.get)
    start.install_browser()
    assert asked == []
    monkeypatch.setattr(start.shutil, "which", lambda name: None)
    start.install_browser()
    assert asked == [["chromium"]]
    assert "without Chromium" in capsys.readouterr().err


def test_without_network_one_sentence_and_nothing_half_made_passes_for_whole(
    checkout: Path,
) -> None:
    first = run(checkout, "check", "part.stl")
    assert first.returncode == 1
    assert first.stdout == ""
    assert "offline" in first.stderr
    assert "Traceback" not in first.stderr
    assert (checkout / ".venv").exists()
    assert not (checkout / ".venv" / "showside-set-up.txt").exists()

    second = run(checkout, "check", "part.stl")
    assert "unfinished" in second.stderr  # recognised, and made anew
    assert second.returncode == 1


def test_a_folder_that_cannot_be_written_is_one_sentence(checkout: Path) -> None:
    (checkout / ".venv").write_text("a file where the folder should be")
    answer = run(checkout, "check", "part.stl")
    assert answer.returncode == 1
    assert "Traceback" not in answer.stderr
    assert "written" in answer.stderr


def test_a_ready_environment_runs_the_program_with_the_words_given(
    start: ModuleType, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    """With the stamp of both locks in place nothing is installed, and the exit code comes back."""
    (tmp_path / "viewer").mkdir()
    (tmp_path / "viewer" / "__main__.py").write_text(
        "import sys, pathlib\npathlib.Path('words.txt').write_text(' '.join(sys.argv[1:]))\n"
        "sys.exit(7)\n"
    )
    monkeypatch.chdir(tmp_path)
    monkeypatch.setattr(start, "ROOT", tmp_path)
    monkeypatch.setattr(start, "VENV_PYTHON", Path(sys.executable))
    monkeypatch.setattr(start, "STAMP", tmp_path / "stamp.txt")
    monkeypatch.setattr(start, "missing_system_packages", lambda for_tests: [])
    digest = start.hashlib.sha256(start.PROGRAM_LOCK.read_bytes()).hexdigest()
    start.STAMP.write_text(f"{start.environment()}\n{digest}\n")
    for words, heard in ((["check", "a b.stl", "--json"], "check a b.stl --json"), ([], "demo")):
        assert start.main(words) == 7
        assert (tmp_path / "words.txt").read_text() == heard


@pytest.mark.parametrize(
    ("cores", "words", "heard"),
    [
        (1, ["test"], ""),
        (2, ["test"], "-n 2 --dist worksteal"),
        (64, ["test"], "-n 4 --dist worksteal"),
        (None, ["test"], ""),  # what Python says where it cannot tell
        (2, ["test", "tests/geometry"], "tests/geometry"),
        (2, ["test", "-k", "a b"], "-k a b"),
    ],
)
def test_all_tests_are_shared_out_among_the_cores_but_a_choice_is_not(
    start: ModuleType, monkeypatch: pytest.MonkeyPatch, tmp_path: Path,
    cores: int | None, words: list[str], heard: str,
) -> None:  # fmt: skip
    """A stand-in for pytest notes its words; kernels are compiled first for all tests only."""
    (tmp_path / "pytest.py").write_text(
        "import sys, pathlib\npathlib.Path('words.txt').write_text(' '.join(sys.argv[1:]))\n"
        "sys.exit(5)\n"
    )
    done = []
    monkeypatch.setattr(start.os, "cpu_count", lambda: cores)
    monkeypatch.setattr(start, "ROOT", tmp_path)
    monkeypatch.setattr(start, "VENV_PYTHON", Path(sys.executable))
    monkeypatch.setattr(start, "missing_system_packages", lambda for_tests: [])
    monkeypatch.setattr(start, "set_up_packages", done.append)
    monkeypatch.setattr(start, "compile_kernels", lambda: done.append("kernels"))
    assert start.main(words) == 5
    assert (tmp_path / "words.txt").read_text() == heard
    assert done == [start.TEST_LOCK, "kernels"][: 2 if words == ["test"] else 1]


RUNNER = """
import pathlib, signal, sys, time
signal.signal(signal.SIGINT, signal.default_int_handler)  # a shell may have had it ignored
try:
    print("runs", flush=True)  # in here: what reads it may answer with Ctrl-C at once
    time.sleep(60)
except KeyboardInterrupt:
    time.sleep(1.0)  # longer than Python's own patience of a quarter of a second
    pathlib.Path(sys.argv[1]).write_text("tidied")
    sys.exit(2)
"""


@pytest.mark.skipif(os.name != "posix", reason="sends the signal of Ctrl-C")
def test_ctrl_c_waits_until_the_tests_have_tidied_up(tmp_path: Path) -> None:
    program = (
        "import runpy, signal, sys\n"
        "signal.signal(signal.SIGINT, signal.default_int_handler)\n"
        f"start = runpy.run_path({str(ROOT / 'packaging' / 'start.py')!r})\n"
        f"start['run_tests']([sys.executable, '-c', {RUNNER!r}, {str(tmp_path / 'note')!r}])\n"
    )
    with subprocess.Popen(
        [sys.executable, "-c", program], stdout=subprocess.PIPE, stderr=subprocess.PIPE,
        text=True, start_new_session=True,
    ) as running:  # fmt: skip
        assert running.stdout.readline() == "runs\n"
        os.killpg(running.pid, signal.SIGINT)
        _, trouble = running.communicate(timeout=60)
    assert (tmp_path / "note").read_text() == "tidied"
    assert "KeyboardInterrupt" in trouble
    assert running.returncode != 0


def test_kernels_are_compiled_without_the_large_packages(start: ModuleType) -> None:
    """Set-up compiles them beside the installation of the large ones."""
    large = ("PySide6", "shiboken6", "vtk", "vtkmodules", "pyvista", "pyvistaqt", "qtpy", "OCP")
    script = f"""
import sys
sys.modules.update(dict.fromkeys({large!r}))  # as if they were not there
import viewer.command.warm_up
"""
    subprocess.run([sys.executable, "-c", script], cwd=ROOT, check=True, timeout=240)


def test_the_first_lock_lacks_the_large_packages_and_nothing_else(start: ModuleType) -> None:
    def names(lock: str) -> set[str]:
        return set(re.findall(r"(?m)^([a-z0-9-]+)==", lock))

    whole = start.PROGRAM_LOCK.read_text("utf-8")
    first = start.without_large_ones(whole)
    assert names(whole) - names(first) == set(start.LARGE) & names(whole) == set(start.LARGE)
    assert names(first) <= names(whole)
    hashes = [line for line in first.splitlines() if not line.startswith(" ")]
    assert all("==" in line for line in hashes if line)
    assert set(first.splitlines()) <= set(whole.splitlines()) | {""}
