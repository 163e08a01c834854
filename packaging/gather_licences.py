"""Write the licences of everything that goes into a packed program into one folder.

    python packaging/gather_licences.py FOLDER

FOLDER then holds list.json (name, version, licence, home and texts of every package), which the
about box shows, and LICENSE.txt, the program's own. Ends with 1 if something may not go along.
"""

import contextlib
import json
import re
import shutil
import sys
import sysconfig
from dataclasses import asdict, replace
from importlib.metadata import PackageNotFoundError, distribution
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
TEXTS = ROOT / "packaging" / "licences"
sys.path.insert(0, str(ROOT))

from viewer.window.licences import Licensed, installed_packages, licensed  # noqa: E402 -- after the path

# Packages whose wheels carry no text: which of our texts belong to them.
TEXTS_OF = {
    "pyside6-essentials": ("LGPL-3.0.txt", "GPL-3.0.txt", "Qt-notice.txt"),
    "shiboken6": ("LGPL-3.0.txt", "GPL-3.0.txt", "Qt-notice.txt"),
    "cadquery-ocp-novtk": ("Apache-2.0.txt", "LGPL-2.1.txt", "OpenCASCADE-notice.txt"),
    "cadquery-ocp-proxy": ("Apache-2.0.txt",),
}
MAY_GO_ALONG = re.compile(
    r"(MIT(-CMU)?|BSD|0BSD|ISC|Zlib|Apache|PSF|Python Software Foundation|CC0|HPND|MPL|"
    r"Mozilla Public|LGPL)", re.IGNORECASE,
)  # fmt: skip
# Of the tool that packs the folder only its starter goes along; its exception lets it do so under
# any terms. Found only where that tool is installed.
STARTER = ("pyinstaller", "GPL-2.0-or-later WITH Bootloader-exception")
_GPL = re.compile(r"(?<!L)(?<!Lesser )\b(A?GPL|GNU General Public|Affero)", re.IGNORECASE)


def may_go_along(licence: str) -> bool:
    """Whether a licence lets the package be part of a program under the MIT licence.

    The GPL may only be named as one choice beside another that may.
    """
    choices = re.split(r"\bOR\b", licence)
    if licence == STARTER[1]:
        return True
    return any(MAY_GO_ALONG.search(one) and not _GPL.search(one) for one in choices)


def all_licences() -> list[Licensed]:
    """Every package of the program with the texts its wheel lacks, and Python itself."""
    found = []
    for one in installed_packages():
        own = tuple(
            (name, (TEXTS / name).read_text("utf-8")) for name in TEXTS_OF.get(one.name, ())
        )
        found.append(replace(one, texts=one.texts + own))
    version = ".".join(map(str, sys.version_info[:3]))
    text = (("LICENSE.txt", _text_of_python()),)
    found.append(Licensed("python", version, "PSF-2.0", "https://www.python.org", text))
    with contextlib.suppress(PackageNotFoundError):
        found.append(replace(licensed(distribution(STARTER[0])), licence=STARTER[1]))
    return sorted(found, key=lambda one: one.name)


def _text_of_python() -> str:
    for folder in (Path(sysconfig.get_path("stdlib")), Path(sys.base_prefix)):
        for name in ("LICENSE.txt", "LICENSE"):
            if (folder / name).is_file():
                return (folder / name).read_text("utf-8")
    for path in Path("/usr/share/doc").glob(f"python3.{sys.version_info[1]}/copyright"):
        return path.read_text("utf-8")
    return "Python Software Foundation License Version 2: https://docs.python.org/3/license.html"


def write(folder: Path, licences: list[Licensed]) -> None:
    """Write list.json and the program's own licence."""
    folder.mkdir(parents=True, exist_ok=True)
    text = json.dumps([asdict(one) for one in licences], ensure_ascii=False, indent=1)
    (folder / "list.json").write_text(text + "\n", encoding="utf-8")
    shutil.copyfile(ROOT / "LICENSE", folder / "LICENSE.txt")


def faults(licences: list[Licensed]) -> list[str]:
    """What keeps the packages from being passed on: a licence, or a missing text."""
    found = [
        f"{one.name} {one.version}: {one.licence or 'no licence named'}"
        for one in licences if not may_go_along(one.licence)
    ]  # fmt: skip
    return found + [f"{one.name}: no text of its licence" for one in licences if not one.texts]


def main(words: list[str]) -> int:
    """Write the folder, and tell what is at fault."""
    licences = all_licences()
    write(Path(words[0]), licences)
    wrong = faults(licences)
    print(f"{len(licences)} packages; at fault: {'; '.join(wrong) or 'none'}.")
    return 1 if wrong else 0


if __name__ == "__main__":
    raise SystemExit(main(sys.argv[1:]))
