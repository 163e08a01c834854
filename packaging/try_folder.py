"""Have a packed folder do what the program does, in a home of its own, and tell how long each took.

    python packaging/build_folder.py --out dist
    python packaging/try_folder.py dist/showside

Needs nothing of this environment but Python. The first measurement of each kind compiles kernels,
so that it takes minutes. With a screen (a virtual one will do: xvfb-run) the window is tried as
well: it has to stay open for a while. Ends with 1 if something failed.
"""

import argparse
import os
import subprocess
import sys
import tempfile
import time
from pathlib import Path

OPEN_FOR_S = 60
CUBE = """OFF
8 6 0
0 0 0
20 0 0
20 20 0
0 20 0
0 0 20
20 0 20
20 20 20
0 20 20
4 0 3 2 1
4 4 5 6 7
4 0 1 5 4
4 1 2 6 5
4 2 3 7 6
4 3 0 4 7
"""
PART = "demo/trowel-grip-posed.3mf"
COMMANDS = (
    ("--version",),
    ("demo", "--out", "demo"),
    ("check", PART),
    ("mend", "cube.off", "--out", "mended.3mf"),
    ("pose", PART, "--up", "0,1,0", "--out", "posed.3mf"),
    ("rank", PART, "--directions", "40", "--keep", "2"),
    ("specimen", "inclination-fan", "--out", "specimen"),
    ("sheet", PART, "--out", "sheet.html"),
    ("pack", PART, "--out", "packed"),
)


def run(program: Path, words: tuple[str, ...], home: Path) -> bool:
    """One command within `home`; prints what came of it."""
    begun_s = time.monotonic()
    done = subprocess.run(
        [str(program), *words],
        cwd=home, env=environment(home), capture_output=True, text=True, check=False,
    )  # fmt: skip
    took_s = time.monotonic() - begun_s
    lines = (done.stdout + done.stderr).strip().splitlines() or ["(said nothing)"]
    print(f"{'failed' if done.returncode else 'done':<7}{took_s:6.1f} s  {' '.join(words)}")
    print("\n".join(lines[-8:]) if done.returncode else f"                  {lines[0]}", flush=True)
    return done.returncode == 0


def stays_open(program: Path, home: Path) -> bool:
    """Whether the window opens the demo and is there a minute later."""
    with subprocess.Popen([str(program), "demo"], cwd=home, env=environment(home)) as child:
        try:
            child.wait(OPEN_FOR_S)
        except subprocess.TimeoutExpired:
            child.terminate()
            print(f"done   {OPEN_FOR_S:6.1f} s  the window with the demo")
            return True
        print(f"failed: the window ended by itself with {child.returncode}")
        return False


def environment(home: Path) -> dict[str, str]:
    """This one's, with another home and nothing of Python's."""
    kept = {k: v for k, v in os.environ.items() if not k.startswith(("PYTHON", "NUMBA", "XDG_"))}
    return {**kept, "HOME": str(home), "LOCALAPPDATA": str(home), "APPDATA": str(home)}


def main() -> int:
    """Try all of it."""
    asked = argparse.ArgumentParser(description=__doc__)
    asked.add_argument("folder", type=Path)
    folder = asked.parse_args().folder.resolve()
    program = folder / ("showside.exe" if os.name == "nt" else "showside")
    with tempfile.TemporaryDirectory() as made:
        home = Path(made)
        (home / "cube.off").write_text(CUBE, "utf-8")
        worked = [run(program, words, home) for words in COMMANDS]
        if os.environ.get("DISPLAY") or sys.platform in ("win32", "darwin"):
            worked.append(stays_open(program, home))
    return int(not all(worked))


if __name__ == "__main__":
    raise SystemExit(main())
