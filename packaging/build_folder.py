"""Pack Showside into one folder that runs without Python, on the kind of system this runs on.

    python packaging/build_folder.py [--out FOLDER]

Run it with the Python of an environment that holds the program's packages and PyInstaller. FOLDER
(default: dist) then holds showside/, which may be moved anywhere; start it with showside/showside.
Prints the size of it all.
"""

import argparse
import json
import os
import re
import shutil
import subprocess
import sys
import tempfile
import tomllib
from dataclasses import asdict
from importlib.metadata import packages_distributions
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
HERE = ROOT / "packaging"
sys.path[:0] = [str(ROOT), str(HERE)]

from bundled_libraries import left_out_among  # noqa: E402 -- after the path
from gather_licences import all_licences, faults, write  # noqa: E402
from make_icons import write_icons  # noqa: E402

from viewer.window.licences import Licensed, plain  # noqa: E402

# Large libraries that carry names nobody needs at run time; wheels of these strip without harm.
STRIPPED = ("vtkmodules/*.so*", "*.libs/lib*.so*", "llvmlite/**/*.so", "OCP/*.so", "libpython*.so*")
NOT_STRIPPED = ("numpy.libs", "pillow.libs")  # patched in a way strip cannot take


def names_in(lock: Path) -> set[str]:
    """The packages of a lock file."""
    return {
        plain(each) for each in re.findall(r"^([A-Za-z0-9._-]+)==", lock.read_text("utf-8"), re.M)
    }


def left_out() -> list[str]:
    """Modules that only tests need, of whatever else is installed here."""
    wanted = names_in(HERE / "requirements.lock")
    return sorted(
        module
        for module, owners in packages_distributions().items()
        if not {plain(owner) for owner in owners} & wanted and module.isidentifier()
        and module not in ("viewer", "_distutils_hack", "pkg_resources")
    )  # fmt: skip


def pack(out: Path, work: Path) -> Path:
    """Run PyInstaller; returns the folder it made."""
    made = work / "made"
    licences = all_licences()
    wrong = faults(licences)
    if wrong:
        raise SystemExit("These may not go along: " + "; ".join(wrong))
    write(made / "licences", licences)
    write_icons(made)
    environment = {
        **os.environ,
        "SHOWSIDE_MADE": str(made),
        "SHOWSIDE_VERSION": version(),
        "SHOWSIDE_LEFT_OUT": json.dumps(left_out()),
        "PYTHONPATH": str(ROOT),
    }
    command = [sys.executable, "-m", "PyInstaller", "--noconfirm", "--log-level", "WARN"]
    command += ["--distpath", str(out), "--workpath", str(work / "work")]
    command += [str(HERE / "folder" / "showside.spec")]
    subprocess.run(command, check=True, env=environment)
    unwanted = left_out_among(path.name for path in (out / "showside").rglob("*"))
    if unwanted:
        raise SystemExit("These have no listed licence and went along: " + ", ".join(unwanted))
    return out / "showside"


def strip(folder: Path) -> None:
    """Take names for debuggers out of the large libraries (Linux)."""
    if not sys.platform.startswith("linux") or shutil.which("strip") is None:
        return
    for pattern in STRIPPED:
        for path in (folder / "_internal").glob(pattern):
            if path.is_file() and not path.is_symlink() and path.parent.name not in NOT_STRIPPED:
                subprocess.run(["strip", "--strip-unneeded", str(path)], check=False,
                               stderr=subprocess.DEVNULL)  # fmt: skip


def add_system_licences(folder: Path, work: Path) -> list[str]:
    """Add the copyright of libraries of this system that went along (Debian); returns packages."""
    listed = folder / "_internal" / "viewer" / "resources" / "licences" / "list.json"
    known = json.loads(listed.read_text("utf-8"))
    owners: dict[str, list[str]] = {}
    for source in system_libraries(work):
        package = owner_of(source)
        if package:
            owners.setdefault(package, []).append(Path(source).name)
    for package, libraries in sorted(owners.items()):
        text = Path(f"/usr/share/doc/{package}/copyright").read_text("utf-8", errors="replace")
        shown = subprocess.check_output(
            ["dpkg-query", "-W", "-f", "${Version}", package], text=True
        )
        licence = "see the text (" + ", ".join(sorted(libraries)) + ")"
        one = Licensed(package, shown, licence, "https://www.debian.org", (("copyright", text),))
        known.append(asdict(one))
    known.sort(key=lambda each: each["name"])
    listed.write_text(json.dumps(known, ensure_ascii=False, indent=1) + "\n", encoding="utf-8")
    return sorted(owners)


def system_libraries(work: Path) -> list[str]:
    """Libraries that PyInstaller took from the system, as it wrote them down."""
    text = next((work / "work").rglob("COLLECT-00.toc")).read_text("utf-8")
    return sorted(set(re.findall(r"'((?:/usr)?/lib/[^']+\.so[^']*)'", text)))


def owner_of(library: str) -> str:
    """The Debian package of a library; "" where there is none or no dpkg."""
    if shutil.which("dpkg") is None:
        return ""
    for path in (library, os.path.realpath(library), library.removeprefix("/usr")):
        found = subprocess.run(["dpkg", "-S", path], capture_output=True, text=True, check=False)
        if found.returncode == 0:
            return found.stdout.split(":")[0]
    return ""


def version() -> str:
    """The program's version."""
    return tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))["project"]["version"]


def size_mb(folder: Path) -> float:
    """What the files of a folder take."""
    return sum(p.stat().st_size for p in folder.rglob("*") if not p.is_symlink()) / 1e6


def main() -> int:
    """Pack, strip, complete the licences, tell the size."""
    asked = argparse.ArgumentParser(description=__doc__)
    asked.add_argument("--out", type=Path, default=ROOT / "dist")
    out = asked.parse_args().out.resolve()
    with tempfile.TemporaryDirectory() as work:
        folder = pack(out, Path(work))
        whole = size_mb(folder)
        strip(folder)
        system = add_system_licences(folder, Path(work))
    print(f"{folder}: {size_mb(folder):,.0f} MB ({whole:,.0f} MB before stripping).")
    print(f"Of this system went along: {', '.join(system) or 'nothing'}.")
    return 0


if __name__ == "__main__":
    raise SystemExit(main())
