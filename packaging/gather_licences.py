"""Write the licences of everything that goes into a packed program into one folder.

    python packaging/gather_licences.py FOLDER

FOLDER then holds list.json (name, version, licence, home and texts of every package and of every
library of others within one), which the about box shows, and LICENSE.txt, the program's own. Ends
with 1 if something may not go along.
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
sys.path[:0] = [str(ROOT), str(ROOT / "packaging")]

from bundled_libraries import (  # noqa: E402 -- after the path
    Library,
    installed,
    listed_libraries,
    texts_of,
    unlisted,
    version_of,
)

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
    r"Mozilla Public|LGPL|FreeImage|JasPer|FTL|IJG|libpng|libtiff|X11|bzip2|Unicode-3|GL2PS|"
    r"BSL-1|public-domain)", re.IGNORECASE,
)  # fmt: skip
# Of the tool that packs the folder only its starter goes along; its exception lets it do so under
# any terms. Found only where that tool is installed.
STARTER = ("pyinstaller", "GPL-2.0-or-later WITH Bootloader-exception")
# Run-time libraries of a compiler may go along with what it compiled, under any terms.
RUN_TIME = "GPL-3.0-or-later WITH GCC-exception-3.1"
ABOUT = "About"  # what is said before the texts of a library
_GPL = re.compile(r"(?<!L)(?<!Lesser )\b(A?GPL|GNU General Public|Affero)", re.IGNORECASE)


def may_go_along(licence: str) -> bool:
    """Whether a licence lets the package be part of a program under the MIT licence.

    The GPL may only be named as one choice beside another that may.
    """
    choices = re.split(r"\bOR\b", licence)
    if licence in (STARTER[1], RUN_TIME):
        return True
    return any(MAY_GO_ALONG.search(one) and not _GPL.search(one) for one in choices)


def all_licences() -> list[Licensed]:
    """Every package of the program with the texts its wheel lacks, others' libraries within them,
    and Python itself."""
    found = []
    for one in installed_packages():
        own = tuple(
            (name, (TEXTS / name).read_text("utf-8")) for name in TEXTS_OF.get(one.name, ())
        )
        found.append(replace(one, texts=one.texts + own))
    packages = {one.name for one in found}
    found += [library_licensed(each) for each in listed_libraries() if each.wheel in packages]
    version = ".".join(map(str, sys.version_info[:3]))
    text = (("LICENSE.txt", _text_of_python()),)
    found.append(Licensed("python", version, "PSF-2.0", "https://www.python.org", text))
    with contextlib.suppress(PackageNotFoundError):
        found.append(replace(licensed(distribution(STARTER[0])), licence=STARTER[1]))
    return sorted(found, key=lambda one: one.name)


def library_licensed(library: Library) -> Licensed:
    """A library within a package; what had to be chosen or said stands before its texts."""
    told = [f"A library within the package {library.wheel}."]
    if library.chosen:
        told.append(f"Offered under {library.licence}; it goes along under {library.chosen}.")
    told += [library.note] if library.note else []
    return Licensed(
        f"{library.wheel}: {library.name}",
        version_of(library),
        library.goes_under,
        library.home,
        ((ABOUT, "\n".join(told) + "\n"), *texts_of(library)),
    )


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
    bare = [one for one in licences if not [name for name, _ in one.texts if name != ABOUT]]
    found += [f"{one.name}: no text of its licence" for one in bare]
    names = [one.name for one in licences if installed(one.name)]
    return found + [f"{place}: not in licences/libraries.toml" for place in unlisted(names)]


def main(words: list[str]) -> int:
    """Write the folder, and tell what is at fault."""
    licences = all_licences()
    write(Path(words[0]), licences)
    wrong = faults(licences)
    print(f"{len(licences)} packages and libraries; at fault: {'; '.join(wrong) or 'none'}.")
    return 1 if wrong else 0


if __name__ == "__main__":
    raise SystemExit(main(sys.argv[1:]))
