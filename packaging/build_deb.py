"""Make a .deb of the packed folder, for Debian 12, Ubuntu 22.04 and newer on x86_64.

    python packaging/build_folder.py --out dist
    python packaging/build_deb.py dist/showside [--out FOLDER] [--quick]

Needs dpkg-deb. Everything lies in /opt/showside; the menu entry, icons and kinds of file go where
desktops look for them. Nothing is run on the user's machine but Debian's own triggers. With --quick
nothing is compressed: to be tried, not to be passed on.
"""

import argparse
import gzip
import os
import shutil
import subprocess
import sys
import tempfile
import time
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
HERE = ROOT / "packaging"
sys.path[:0] = [str(ROOT), str(HERE)]

from build_folder import version  # noqa: E402 -- after the path
from make_icons import ID, write_icons  # noqa: E402

# What the folder leaves to the system: graphics, X11, fonts, GLib (named anew in 2024), D-Bus, and
# what Qt's network part, by which a second start hands its file over, wants to be there.
DEPENDS = (
    "libc6 (>= 2.34)", "libgl1", "libegl1", "libfontconfig1", "libdbus-1-3", "libgssapi-krb5-2",
    "libglib2.0-0t64 | libglib2.0-0", "libx11-6", "libx11-xcb1", "libxcb1", "libxcb-glx0",
    "libxcb-randr0", "libxcb-render0", "libxcb-shape0", "libxcb-shm0", "libxcb-sync1",
    "libxcb-xfixes0", "libxcursor1", "libstdc++6", "libbrotli1", "zlib1g",
)  # fmt: skip
COMPRESSION = (
    "-Zxz",
    "-z1",
    "--threads-max=2",
)  # a fifth larger than the best, a tenth of its time


def control(size_kb: int) -> str:
    """The file DEBIAN/control."""
    return f"""Package: showside
Version: {version()}
Architecture: amd64
Maintainer: The Showside authors <showside@localhost>
Installed-Size: {size_kb}
Depends: {", ".join(DEPENDS)}
Section: graphics
Priority: optional
Description: lay a part so that the side that shows comes out clean
 Showside is a 3D viewer for people who print parts for clients. It measures what
 each pose of a part costs the faces that show: marks of supports, layer steps,
 islands; searches every direction; and writes the part as it shall stand.
"""


def lay_out(folder: Path, root: Path) -> None:
    """Put the packed folder and all that a desktop looks for where they belong below `root`."""
    shutil.copytree(folder, root / "opt" / "showside", symlinks=True)
    start = root / "usr" / "bin" / "showside"
    start.parent.mkdir(parents=True)
    start.symlink_to("../../opt/showside/showside")
    share = root / "usr" / "share"
    for source, place in (
        (f"{ID}.desktop", "applications"),
        (f"{ID}.metainfo.xml", "metainfo"),
        (f"{ID}.xml", "mime/packages"),
    ):
        (share / place).mkdir(parents=True)
        shutil.copyfile(HERE / "linux" / source, share / place / source)
    with tempfile.TemporaryDirectory() as icons:
        write_icons(Path(icons))
        shutil.copytree(Path(icons) / "hicolor", share / "icons" / "hicolor")
    papers = share / "doc" / "showside"
    papers.mkdir(parents=True)
    shutil.copyfile(ROOT / "LICENSE", papers / "copyright")
    licences = folder / "_internal" / "viewer" / "resources" / "licences" / "list.json"
    with gzip.GzipFile(papers / "licences.json.gz", "wb", mtime=0) as file:
        file.write(licences.read_bytes())


def set_rights(root: Path) -> None:
    """Folders and programs 755, all else 644, whatever the umask was."""
    for path in root.rglob("*"):
        if path.is_symlink():
            continue
        runs = path.is_dir() or os.access(path, os.X_OK)
        path.chmod(0o755 if runs else 0o644)


def build(folder: Path, out: Path, compression: tuple[str, ...] = COMPRESSION) -> Path:
    """Make the package; returns its path."""
    with tempfile.TemporaryDirectory(dir=out) as made:
        root = Path(made) / "root"
        lay_out(folder, root)
        set_rights(root)
        root.chmod(0o755)
        size_kb = sum(p.lstat().st_size for p in root.rglob("*")) // 1024
        (root / "DEBIAN").mkdir(mode=0o755)
        (root / "DEBIAN" / "control").write_text(control(size_kb), encoding="utf-8")
        path = out / f"showside_{version()}_amd64.deb"
        command = ["dpkg-deb", "--root-owner-group", *compression, "--build", str(root), str(path)]
        subprocess.run(command, check=True, stdout=subprocess.DEVNULL)
    return path


def main() -> int:
    """Build, and tell size and time."""
    asked = argparse.ArgumentParser(description=__doc__)
    asked.add_argument("folder", type=Path)
    asked.add_argument("--out", type=Path, default=ROOT / "dist")
    asked.add_argument("--quick", action="store_true", help="leave it uncompressed, for a trial")
    given = asked.parse_args()
    given.out.mkdir(parents=True, exist_ok=True)
    begun_s = time.monotonic()
    compression = ("-Znone",) if given.quick else COMPRESSION
    path = build(given.folder.resolve(), given.out.resolve(), compression)
    took_s = time.monotonic() - begun_s
    print(f"{path}: {path.stat().st_size / 1e6:,.0f} MB, made in {took_s:.0f} s.")
    return 0


if __name__ == "__main__":
    raise SystemExit(main())
