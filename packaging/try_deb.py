"""Install the .deb in a bare Debian, start it there, take it off again; as root, on Debian.

    sudo python3 packaging/try_deb.py dist/showside_0.1.0_amd64.deb [--suite bookworm] [--keep]
                                      [--picture FILE.png]

Needs mmdebstrap (apt-get install mmdebstrap) and the system's package lists. The bare root has no
Python, no X server and no fonts at first. Checks that `apt-get install ./showside.deb` brings all
that is needed; that menu entry and kinds of file are registered; that the window draws its first
picture under a virtual screen and compiles the kernels beside it; that the command line measures,
searches directions, and reads 3MF and STEP; and that after `apt-get purge` and `autoremove` no file
is there that was not before. Prints what it measured.
"""

import argparse
import shutil
import subprocess
import sys
import tempfile
import time
from pathlib import Path

from try_folder import COMPILED_WITHIN_S, DRAWN_COLOURS, PART, STEP

ID = "org.showside.showside"
# What a desktop has and a bare root lacks: a screen, something to look at it with, kinds of file.
BESIDE = "xvfb desktop-file-utils shared-mime-info libglib2.0-bin imagemagick"
# As every running system has it; the bare root has no program to mount things with.
MEMORY = 'mkdir -p "$0/dev/shm"; mount -t tmpfs tmpfs "$0/dev/shm"; exec "$@"'
# The starter of a packed program looks in its folder first.
MISSING = (
    "export LD_LIBRARY_PATH=/opt/showside/_internal; find /opt/showside -name '*.so*' -type f"
    " -exec ldd {} + 2>/dev/null | sed -n 's/^\\s*\\(.*\\) => not found$/\\1/p' | sort -u"
)
DONE_WITHOUT = {"libcups.so.2"}  # the printers of a system that has any
# All that the programs there know of whoever asks.
PATH = "/usr/local/sbin:/usr/local/bin:/usr/sbin:/usr/bin:/sbin:/bin"
HOME = "export HOME=/srv LANG=C.UTF-8; cd /srv; "
WINDOW = f"""
{HOME}
export DISPLAY=:9
Xvfb :9 -screen 0 1280x800x24 >/dev/null 2>&1 & xvfb=$!
sleep 2
begun=$(date +%s)
showside demo >window.txt 2>&1 & program=$!
drawn=no; compiled=no
while kill -0 $program 2>/dev/null; do
  sleep 0.5
  took=$(($(date +%s) - begun))
  [ $took -gt {COMPILED_WITHIN_S} ] && break
  if [ $drawn = no ]; then
    import -window root -gravity center -crop 50%x50%+0+0 seen.png
    if [ "$(identify -format %k seen.png)" -gt {DRAWN_COLOURS} ]; then
      drawn=yes; echo "first picture of the demo after $took s"
    fi
  fi
  if [ $compiled = no ] && ls .cache/showside/compiled/*/ready-*.txt >/dev/null 2>&1; then
    compiled=yes; echo "kernels compiled beside the window after $took s"
  fi
  [ $drawn$compiled = yesyes ] && break
done
sleep 5
import -window root picture.png
there=yes; kill $program 2>/dev/null || there=no
wait $program; kill $xvfb; wait $xvfb
if [ $drawn$compiled$there != yesyesyes ]; then
  echo "drawn: $drawn, compiled: $compiled, still there: $there"; tail -30 window.txt; exit 1
fi
"""
COMMANDS = (
    "showside demo --out demo",
    f"showside check {PART}",
    f"showside check {STEP.name}",
    f"showside rank {PART} --directions 40 --keep 2",
)


def run(root: Path, command: str, alone: bool = False, **options: object) -> str:
    """Run a shell line within the bare root; stops everything when it fails.

    In namespaces of its own, so that no mount and no process outlives it; `alone`, with no network
    either: the screens of the system around have sockets in it, and are not to be drawn on.
    """
    inside = ["unshare", "--mount", "--pid", "--fork", "--kill-child"]
    inside += ["--net"] if alone else []
    inside += ["/bin/sh", "-c", MEMORY, str(root), "unshare", f"--root={root}", "--mount-proc"]
    done = subprocess.run(
        [*inside, "/bin/sh", "-c", command], env={"PATH": PATH},
        text=True, stdout=subprocess.PIPE, stderr=subprocess.STDOUT, check=False, **options,
    )  # fmt: skip
    if done.returncode != 0:
        print(done.stdout[-3000:], file=sys.stderr)
        raise SystemExit(f"This failed in the bare root: {command.strip()[:200]}")
    return done.stdout


def files_of(root: Path) -> set[str]:
    """Every file of the root but caches, logs and what programs of ours were given to work in."""
    changing = ("var", "proc", "dev", "sys", "tmp", "root", "run", "srv")
    left_out = [word for name in changing for word in ("-not", "-path", f"./{name}/*")]
    command = ["find", ".", "-xdev", *left_out]
    listed = subprocess.check_output(command, cwd=root, text=True)
    return set(listed.splitlines())


def bare(root: Path, suite: str) -> str:
    """Make the root; returns the beginning of every call of apt in it."""
    begun_s = time.monotonic()
    subprocess.run(["mmdebstrap", "--variant=apt", suite, str(root)], check=True,
                   stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)  # fmt: skip
    print(f"bare {suite}: {time.monotonic() - begun_s:.0f} s", flush=True)
    shutil.copyfile("/etc/resolv.conf", root / "etc" / "resolv.conf")
    apt = "DEBIAN_FRONTEND=noninteractive apt-get -qq -o APT::Sandbox::User=root"
    run(root, f"{apt} update && {apt} install -y --no-install-recommends {BESIDE}")
    return apt


def see_installed(root: Path) -> None:
    """Whether all libraries are found, and menu entry and kinds of file are known."""
    print(run(root, "dpkg -s showside | grep -E '^(Version|Installed-Size)'").strip())
    print("Python there:", run(root, "command -v python3 || echo none").strip())
    missing = set(run(root, MISSING).split())
    print("libraries not found:", ", ".join(sorted(missing)) or "none")
    if missing - DONE_WITHOUT:
        raise SystemExit("The package does not ask for all that it needs.")
    run(root, f"desktop-file-validate /usr/share/applications/{ID}.desktop")
    shutil.copy(STEP, root / "srv")
    kind = run(root, f"gio info -a standard::content-type /srv/{STEP.name}")
    opened = run(root, "gio mime model/step")
    print("kind of a .step:", kind.split()[-1], "- opened with:", opened.split()[-1])
    if "model/step" not in kind or f"{ID}.desktop" not in opened:
        raise SystemExit("The desktop does not know the program, or the kind of file.")


def use(root: Path, picture: Path | None) -> None:
    """Open the window, then go through the command line with the kernels it has compiled."""
    print(run(root, WINDOW, alone=True, timeout=COMPILED_WITHIN_S + 300).strip(), flush=True)
    if picture:
        shutil.copyfile(root / "srv" / "picture.png", picture)
    for command in COMMANDS:
        begun_s = time.monotonic()
        said = run(root, HOME + command, alone=True, timeout=900).strip().splitlines()
        print(f"{time.monotonic() - begun_s:6.1f} s  {command}: {said[0]}", flush=True)


def try_package(package: Path, root: Path, suite: str, picture: Path | None) -> None:
    """The whole round."""
    apt = bare(root, suite)
    before = files_of(root)
    shutil.copyfile(package, root / "srv" / "showside.deb")
    begun_s = time.monotonic()
    run(root, f"{apt} install -y --no-install-recommends /srv/showside.deb")
    print(f"installed in {time.monotonic() - begun_s:.0f} s")
    see_installed(root)
    use(root, picture)
    run(root, f"{apt} purge -y showside && {apt} autoremove --purge -y")
    left = files_of(root) - before
    print("left after purge:", ", ".join(sorted(left)) or "nothing")
    if left:
        raise SystemExit(1)


def main() -> int:
    """Make the bare root, go through it, throw it away."""
    asked = argparse.ArgumentParser(description=__doc__)
    asked.add_argument("package", type=Path)
    asked.add_argument("--suite", default="bookworm")
    asked.add_argument("--keep", action="store_true", help="keep the bare root")
    asked.add_argument("--picture", type=Path, help="where to put a picture of the window")
    given = asked.parse_args()
    root = Path(tempfile.mkdtemp(prefix="bare-"))
    try:
        try_package(given.package.resolve(), root, given.suite, given.picture)
    finally:
        if given.keep:
            print(f"kept: {root}")
        else:
            shutil.rmtree(root, ignore_errors=True)
    return 0


if __name__ == "__main__":
    raise SystemExit(main())
