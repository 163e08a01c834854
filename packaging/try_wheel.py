"""Build the wheel, install it where nothing of the checkout is in sight, and use it.

    python packaging/try_wheel.py [--out FOLDER]

Run it with a Python whose environment holds the program's packages and `build`. The wheel goes into
a fresh environment that borrows those packages, so nothing large is fetched twice; `pipx install
WHEEL` does the same with packages of its own. Prints what it found, and fails with the first thing
that is missing.
"""

import argparse
import json
import os
import subprocess
import sys
import sysconfig
import tempfile
import time
import venv
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
LOOK = """
import json, viewer
from viewer.resource_files import resource_file
from viewer.window.licences import licensed_packages
print(json.dumps({
    "place": viewer.__file__,
    "icon": str(resource_file("icons/showside.svg")),
    "help": len(resource_file("help/de/first-steps.md").read_text("utf-8")),
    "packages": len(licensed_packages()),
}))
"""


def build(out: Path) -> Path:
    """The wheel, built through the source archive as an index would get it."""
    subprocess.run([sys.executable, "-m", "build", "--outdir", str(out), str(ROOT)], check=True,
                   stdout=subprocess.DEVNULL)  # fmt: skip
    return next(out.glob("showside-*.whl"))


def install(wheel: Path, folder: Path) -> Path:
    """A fresh environment with the wheel; returns its folder of programs."""
    venv.create(folder, with_pip=True)
    programs = folder / ("Scripts" if os.name == "nt" else "bin")
    python = programs / "python"
    asked = [str(python), "-c", "import sysconfig; print(sysconfig.get_path('purelib'))"]
    site = subprocess.check_output(asked, text=True).strip()
    borrowed = Path(site) / "borrowed.pth"
    borrowed.write_text(sysconfig.get_path("purelib") + "\n", encoding="utf-8")
    subprocess.run([str(python), "-m", "pip", "install", "--no-deps", "--quiet",
                    "--disable-pip-version-check", str(wheel)], check=True)  # fmt: skip
    return programs


def use(programs: Path, scratch: Path) -> None:
    """Find resources, read the licences, measure a part with the installed program."""
    environment = {k: v for k, v in os.environ.items() if k != "PYTHONPATH"}
    run = {"cwd": scratch, "env": environment, "text": True, "check": True}
    told = subprocess.run([str(programs / "python"), "-c", LOOK], capture_output=True, **run)
    found = json.loads(told.stdout)
    for place in (found["place"], found["icon"]):
        if str(ROOT) in place:
            raise SystemExit(f"{place} is of the checkout, not of the wheel.")
    part = scratch / "wedge.obj"
    part.write_text(
        "v 0 0 0\nv 10 0 0\nv 10 10 0\nv 0 10 0\nv 0 0 5\nv 0 10 5\n"
        "f 1 4 3 2\nf 2 3 6 5\nf 1 2 5\nf 4 6 3\nf 1 5 6 4\n"
    )
    begun_s = time.monotonic()
    told = subprocess.run(
        [str(programs / "showside"), "check", str(part), "--json"], capture_output=True, **run
    )
    answer = json.loads(told.stdout)
    if answer["verdict"] != "sound" or answer["shells"] != 1:
        raise SystemExit(f"`showside check` of a wedge says {answer['verdict']}.")
    took_s = time.monotonic() - begun_s
    print(f"installed in {Path(found['place']).parent}; {found['packages']} packages; "
          f"`showside check` of a wedge: {answer['verdict']}, {took_s:.1f} s")  # fmt: skip


def main() -> int:
    """Build, install, use."""
    asked = argparse.ArgumentParser(description=__doc__)
    asked.add_argument("--out", type=Path, default=ROOT / "dist")
    out = asked.parse_args().out.resolve()
    wheel = build(out)
    print(f"{wheel.name}: {wheel.stat().st_size / 1e6:.1f} MB")
    with tempfile.TemporaryDirectory() as scratch:
        use(install(wheel, Path(scratch) / "env"), Path(scratch))
    return 0


if __name__ == "__main__":
    raise SystemExit(main())
