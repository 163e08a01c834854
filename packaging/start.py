"""Set everything up, then start Showside or its tests. Needs nothing but Python itself.

    python3 packaging/start.py                 set up, open the demo job
    python3 packaging/start.py test [...]      set up with test tools, run the tests
    python3 packaging/start.py set-up          set up with test tools, start nothing
    python3 packaging/start.py check FILE      any other words go to the program

All of it lands in the folder .venv beside this one. A stamp in it says which lock files it was
made from; it is taken away before a change and written last, so that a set-up which was
interrupted is recognised and made anew.
"""

from __future__ import annotations  # an old Python must get as far as our own sentence about it

import ctypes
import hashlib
import importlib.util
import os
import platform
import re
import shutil
import subprocess
import sys
import tempfile
import threading
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
VENV = ROOT / ".venv"
STAMP = VENV / "showside-set-up.txt"
VENV_PYTHON = VENV / ("Scripts/python.exe" if os.name == "nt" else "bin/python")
PROGRAM_LOCK = ROOT / "packaging" / "requirements.lock"
TEST_LOCK = ROOT / "packaging" / "requirements-test.lock"  # holds all of PROGRAM_LOCK too

# Debian and Ubuntu packages by the library that shows whether they are there. Qt's X11 plug-in and
# VTK's OpenGL need them; whatever else they load comes along as a dependency of these.
SYSTEM_LIBRARIES = {
    "libGL.so.1": "libgl1",
    "libEGL.so.1": "libegl1",
    "libglib-2.0.so.0": "libglib2.0-0",
    "libfontconfig.so.1": "libfontconfig1",
    "libdbus-1.so.3": "libdbus-1-3",
    "libgssapi_krb5.so.2": "libgssapi-krb5-2",
    "libxkbcommon-x11.so.0": "libxkbcommon-x11-0",
    "libxcb-cursor.so.0": "libxcb-cursor0",
    "libxcb-icccm.so.4": "libxcb-icccm4",
    "libxcb-keysyms.so.1": "libxcb-keysyms1",
    "libxcb-shape.so.0": "libxcb-shape0",
}
# Most of what is installed: windows, pictures and the CAD kernel. No measuring kernel needs
# any of them, nor the smaller ones that need these.
LARGE = (
    "pyside6-essentials", "shiboken6", "vtk", "pyvista", "pyvistaqt", "qtpy",
    "cadquery-ocp-novtk", "cadquery-ocp-proxy",
)  # fmt: skip
TEST_PROGRAMS = ("Xvfb", "xauth")  # the virtual screen; their packages: the same in lower case
BROWSERS = ("chromium", "chromium-browser", "google-chrome")  # any of them will do for tests
TIDYING_S = 20  # after Ctrl-C: for tests to end their workers, processes and virtual screens
MOST_WORKERS = 4  # side by side in tests; each takes some 2 GB of memory


class CannotSetUp(Exception):
    """The sentence the user reads when set-up cannot go on."""


def say(sentence: str) -> None:
    """Tell the user; standard output belongs to the program's own answer."""
    print(f"showside: {sentence}", file=sys.stderr, flush=True)


def check_computer() -> None:
    version = sys.version_info[:2]
    if not (3, 11) <= version <= (3, 14):
        raise CannotSetUp(
            "Python 3.11 to 3.14 is needed and this is {}.{}. Install one of those and start with "
            "it, such as: python3.12 packaging/start.py".format(*version)
        )
    machine = platform.machine().lower()
    known = {"linux": "x86_64", "win32": "amd64", "darwin": "arm64"}.get(sys.platform) == machine
    if sys.platform == "linux":
        library, number = platform.libc_ver()
        known &= library == "glibc" and [int(n) for n in number.split(".")[:2]] >= [2, 34]
    if not known:
        raise CannotSetUp(
            f"this system ({platform.platform()}) does not fit. Showside runs on Windows x64, "
            "macOS 14 arm64 and Linux x86_64 with glibc 2.34 (Debian 12, Ubuntu 22.04) or newer."
        )


def missing_system_packages(for_tests: bool) -> list[str]:
    """Debian's names of what this Linux lacks; nothing elsewhere."""
    missing = []
    if sys.platform != "linux":
        return missing
    for library, package in SYSTEM_LIBRARIES.items():
        try:
            ctypes.CDLL(library)
        except OSError:
            missing.append(package)
    if for_tests:
        missing += [each.lower() for each in TEST_PROGRAMS if shutil.which(each) is None]
    if importlib.util.find_spec("ensurepip") is None and not STAMP.exists():
        missing.append("python{}.{}-venv".format(*sys.version_info[:2]))
    return missing


def install_system_packages(packages: list[str]) -> None:
    install = ["apt-get", "install", "-y", "--no-install-recommends", *packages]
    wait = ["-o", "DPkg::Lock::Timeout=120"]  # another apt may be at work
    if shutil.which("apt-get") is None:
        say(f"if the window does not open, install what Debian calls {' '.join(packages)}")
        return
    quiet = {"stdin": subprocess.DEVNULL, "stdout": subprocess.DEVNULL}
    root = os.geteuid() == 0
    ask = ["sudo", "-n", "true"]
    if root or (
        shutil.which("sudo") and subprocess.call(ask, stderr=subprocess.DEVNULL, **quiet) == 0
    ):
        say("installing system packages: " + " ".join(packages))
        before = [*([] if root else ["sudo", "-n"]), "env", "DEBIAN_FRONTEND=noninteractive"]
        if subprocess.call([*before, *install, *wait], stderr=subprocess.DEVNULL, **quiet) == 0:
            return
        # The lists of what exists may be absent or old: fetch them and try once more.
        subprocess.call([*before, "apt-get", "update"], **quiet)
        if subprocess.call([*before, *install, *wait], **quiet) == 0:
            return
        trouble = "system packages could not be installed (the lines above say why)"
    else:
        trouble = "some system packages are missing, and installing them is not allowed from here"
    line = "sudo apt-get update && sudo " + " ".join(install)
    raise CannotSetUp(f"{trouble}. Type this, then start again:\n\n    {line}\n")


def install_browser() -> None:
    """Chromium for the tests of client sheets, where that works; they are passed over without it.

    Ubuntu's package of that name only leads to a snap, which a container has no use for: nothing
    else of the set-up may depend on it.
    """
    if sys.platform != "linux" or any(shutil.which(name) for name in BROWSERS):
        return
    try:
        install_system_packages([BROWSERS[0]])
    except CannotSetUp:
        say("without Chromium the tests in a browser are left out")


def environment() -> str | None:
    """Which environment stands in .venv, None where it does not run or lacks pip."""
    ask = "import sys, pip; print(sys.prefix, *sys.version_info[:2])"
    try:
        return subprocess.check_output(
            [str(VENV_PYTHON), "-c", ask], text=True, stderr=subprocess.DEVNULL
        ).strip()
    except (OSError, subprocess.CalledProcessError):
        return None


def set_up_packages(lock: Path) -> None:
    """Bring .venv to what `lock` says; at once when it is already so.

    The kernels are compiled meanwhile: what they need is installed first.
    """
    locks = [PROGRAM_LOCK, TEST_LOCK] if lock == TEST_LOCK else [PROGRAM_LOCK]
    wanted = [hashlib.sha256(each.read_bytes()).hexdigest() for each in locks]
    stamp = STAMP.read_text("utf-8").split("\n") if STAMP.exists() else [""]
    fresh = stamp[0] != environment()
    if fresh:
        if VENV.exists():
            say("the folder .venv is unfinished or was not made here; making it anew")
            shutil.rmtree(VENV)
        python = getattr(sys, "_base_executable", None) or sys.executable
        code = subprocess.call([python, "-m", "venv", str(VENV)], stdout=sys.stderr)
        if code != 0 or environment() is None:
            raise CannotSetUp(f"'{python} -m venv' failed, the lines above say why.")
    elif set(wanted) <= set(stamp):
        return
    STAMP.unlink(missing_ok=True)
    say("installing the Python packages (first time: three to five minutes, 1.7 GB on disk)")
    compiling = None
    try:
        if fresh:
            with tempfile.TemporaryDirectory() as folder:
                first = Path(folder) / "first.lock"
                first.write_text(without_large_ones(PROGRAM_LOCK.read_text("utf-8")), "utf-8")
                install(first, "--no-deps")
            say("compiling the measuring kernels beside it, once")
            compiling = start_compiling()
        install(lock)
        STAMP.write_text("\n".join([environment() or "", *wanted]) + "\n", "utf-8")
        if compiling is not None and compiling.wait() == 0:
            stamp_kernels()
    finally:
        if compiling is not None:
            compiling.kill()
            compiling.wait()


def without_large_ones(lock: str) -> str:
    """The entries of a lock file but for the large packages that no kernel needs."""
    entries = re.split(r"\n(?=\S)", lock)
    return "\n".join(each for each in entries if re.split(r"[=\[ ]", each)[0] not in LARGE) + "\n"


def install(lock: Path, *more: str) -> None:
    """Install what a lock file lists."""
    pip = [str(VENV_PYTHON), "-m", "pip", "install", "--disable-pip-version-check", "--no-input"]
    # Python compiles what is imported as it is imported; all of it would take a minute.
    pip += ["--no-compile", "--require-hashes", "--only-binary", ":all:", "-r", str(lock), *more]
    if not sys.stderr.isatty():
        pip.append("--quiet")
    if subprocess.call(pip, env=child_environment(), stdout=sys.stderr) != 0:
        free_gb = shutil.disk_usage(ROOT).free / 1e9
        raise CannotSetUp(
            "the Python packages could not be installed; the lines above say why. Most often the "
            f"computer is offline or its disk is full ({free_gb:.1f} GB free here). Put that right "
            "and start again."
        )


def kernels_digest() -> str:
    """Changes with any source file that holds kernels."""
    kernels = hashlib.sha256()
    for path in sorted((ROOT / "viewer").rglob("*.py")):
        source = path.read_bytes()
        if b"compiled" in source:
            kernels.update(source)
    return kernels.hexdigest()


def start_compiling() -> subprocess.Popen:
    """Compile the measuring kernels in a process of their own."""
    warm_up = [str(VENV_PYTHON), "-m", "viewer.command.warm_up"]
    return subprocess.Popen(warm_up, env=child_environment(), stdout=sys.stderr)


def stamp_kernels() -> None:
    with STAMP.open("a", encoding="utf-8") as stamp:
        stamp.write(kernels_digest() + "\n")


def compile_kernels() -> None:
    """Compile the measuring kernels if they changed since the last time, or never were."""
    if kernels_digest() in STAMP.read_text("utf-8").split("\n"):
        return
    say("compiling the measuring kernels, once (three to five minutes)")
    if start_compiling().wait() == 0:
        stamp_kernels()
    else:  # the program compiles as it goes; no reason to stop here
        say("that did not work; the first part will take longer instead")


def words_for_pytest(words: list[str]) -> list[str]:
    """The caller's words; where there are none, what shares all tests out among the cores.

    A worker that has nothing left to do takes over half of what waits for another one. One more
    worker than cores gained nothing: loading the tests once more cost what it saved.
    """
    workers = min(os.cpu_count() or 1, MOST_WORKERS)
    if words or workers == 1:
        return words
    return ["-n", str(workers), "--dist", "worksteal"]


def run_tests(command: list[str], **options: object) -> int:
    """Exit code of the test runner; Ctrl-C has reached it as well, and it gets time to tidy up."""
    with subprocess.Popen(command, **options) as child:
        try:
            return child.wait()
        except KeyboardInterrupt:
            try:
                child.wait(TIDYING_S)
            except (subprocess.TimeoutExpired, KeyboardInterrupt):
                child.kill()
            raise


def child_environment() -> dict[str, str]:
    """The caller's environment, less what would slow the program or mix other packages in."""
    environment = {**os.environ, "PYTHONPATH": str(ROOT)}
    for name in ("PYTHONHOME", "PYTHONDONTWRITEBYTECODE"):
        environment.pop(name, None)
    return environment


def main(words: list[str]) -> int:
    for_tests = words[:1] in (["test"], ["set-up"])
    try:
        check_computer()
        packages = missing_system_packages(for_tests)
        if packages:
            install_system_packages(packages)
        browser = threading.Thread(target=install_browser)
        if for_tests:
            browser.start()  # beside all else, which takes longer
        set_up_packages(TEST_LOCK if for_tests else PROGRAM_LOCK)
        if words[:1] != ["test"] or len(words) == 1:  # a few tests compile what they need
            compile_kernels()
        if for_tests:
            browser.join()
        if words[:1] == ["set-up"]:
            return 0
        run = ["viewer", *(words or ["demo"])]
        if for_tests:
            run = ["pytest", *words_for_pytest(words[1:])]
        start = run_tests if for_tests else subprocess.call
        code = start(
            [str(VENV_PYTHON), "-m", *run],
            env=child_environment(),
            cwd=ROOT if for_tests else None,  # the program's FILE is relative to where one is
        )
        return code if code >= 0 else 128 - code
    except CannotSetUp as trouble:
        say(str(trouble))
    except OSError as trouble:
        say(f"{trouble}. Check that {ROOT} can be written to and that its disk has room.")
    except KeyboardInterrupt:
        say("stopped. Start again whenever you like; what is unfinished is made anew.")
        return 130
    return 1


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
