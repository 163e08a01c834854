"""Have a packed folder do what the program does, in a home of its own, and tell how long each took.

    python packaging/build_folder.py --out dist
    python packaging/try_folder.py dist/showside [--picture FILE.png]

Needs nothing of this environment but Python. With a screen (a virtual one will do: xvfb-run) the
window is tried first: it has to draw the demo (where ImageMagick can look), to compile the kernels
in a process beside it, and to be there when that is done, minutes later. Without one, the first
command of each kind compiles them. Ends with 1 if something failed.
"""

import argparse
import os
import shutil
import subprocess
import sys
import tempfile
import time
from pathlib import Path

COMPILED_WITHIN_S = 1200
DRAWN_COLOURS = 200  # without the part there are a few dozen
MIDDLE = "50%x50%+0+0"
HERE = Path(__file__).resolve().parent
STEP = HERE / "trial" / "bracket.step"
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
    ("check", STEP.name),
    ("mend", "cube.off", "--out", "mended.3mf"),
    ("pose", PART, "--up", "0,1,0", "--out", "posed.3mf"),
    ("rank", PART, "--directions", "40", "--keep", "2"),
    ("specimen", "inclination-fan", "--out", "specimen"),
    ("sheet", PART, "--out", "sheet.html"),
    ("sheet", PART, "--out", "sheet.pdf"),
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


def opens(program: Path, home: Path, picture: Path | None) -> bool:
    """Whether the window opens the demo, compiles kernels beside it, and is there afterwards."""
    begun_s = time.monotonic()
    drawn, compiled = not can_look(), False
    with (home / "window.txt").open("w", encoding="utf-8") as said:
        child = subprocess.Popen(
            [str(program), "demo"], cwd=home, env=environment(home), stdout=said, stderr=said
        )
    try:
        while child.poll() is None and not (drawn and compiled):
            time.sleep(0.5 if not drawn else 2)
            took_s = time.monotonic() - begun_s
            if took_s > COMPILED_WITHIN_S:
                break
            if not drawn and colours() > DRAWN_COLOURS:
                drawn = True
                print(f"done   {took_s:6.1f} s  first picture of the demo", flush=True)
            if not compiled and any(home.rglob("compiled/*/ready-*.txt")):
                compiled = True
                print(f"done   {took_s:6.1f} s  kernels compiled beside the window", flush=True)
        there = child.poll() is None
        if picture and can_look():
            subprocess.run(["import", "-window", "root", str(picture)], check=True)
    finally:
        child.terminate()
        child.wait()
    if not (there and drawn and compiled):
        print(f"failed: window there: {there}, drawn: {drawn}, kernels compiled: {compiled}")
        print((home / "window.txt").read_text("utf-8")[-2000:])
    return there and drawn and compiled


def can_look() -> bool:
    """Whether ImageMagick is there to look at the screen with."""
    return bool(shutil.which("import") and shutil.which("identify"))


def colours() -> int:
    """How many colours the middle of the screen shows."""
    look = ["import", "-window", "root", "-gravity", "center", "-crop", MIDDLE, "png:-"]
    seen = subprocess.run(look, capture_output=True, check=False).stdout
    count = subprocess.run(
        ["identify", "-format", "%k", "-"], input=seen, capture_output=True, check=False
    )
    return int(count.stdout or 0)


def environment(home: Path) -> dict[str, str]:
    """This one's, with another home and nothing of Python's."""
    kept = {k: v for k, v in os.environ.items() if not k.startswith(("PYTHON", "NUMBA", "XDG_"))}
    return {**kept, "HOME": str(home), "LOCALAPPDATA": str(home), "APPDATA": str(home)}


def main() -> int:
    """Try all of it."""
    asked = argparse.ArgumentParser(description=__doc__)
    asked.add_argument("folder", type=Path)
    asked.add_argument("--picture", type=Path, help="where to put a picture of the screen")
    given = asked.parse_args()
    folder = given.folder.resolve()
    program = folder / ("showside.exe" if os.name == "nt" else "showside")
    with tempfile.TemporaryDirectory() as made:
        home = Path(made)
        (home / "cube.off").write_text(CUBE, "utf-8")
        shutil.copy(STEP, home)
        worked = []
        if os.environ.get("DISPLAY") or sys.platform in ("win32", "darwin"):
            worked.append(opens(program, home, given.picture))
        worked += [run(program, words, home) for words in COMMANDS]
    return int(not all(worked))


if __name__ == "__main__":
    raise SystemExit(main())
