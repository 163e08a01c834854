"""Install the .deb in a bare Debian, start it there, take it off again; as root, on Debian.

    sudo python3 packaging/try_deb.py dist/showside_0.1.0_amd64.deb [--suite bookworm] [--keep]

Needs mmdebstrap (apt-get install mmdebstrap) and the system's package lists. The bare root has no
Python, no X server and no fonts at first. Checks that `apt-get install ./showside.deb` brings all
that is needed, that the command line measures, that the window draws its first picture under a
virtual screen, that menu entry and kinds of file are registered, and that nothing is left after
`apt-get purge`. Prints what it measured.
"""

import argparse
import shutil
import subprocess
import sys
import tempfile
import time
from pathlib import Path

BESIDE = "xvfb xauth xdg-utils desktop-file-utils shared-mime-info imagemagick x11-utils"
FIRST_PICTURE = """
set -e
export HOME=/srv LANG=C.UTF-8 DISPLAY=:9
Xvfb :9 -screen 0 1280x800x24 >/dev/null 2>&1 & xvfb=$!
sleep 2
showside demo & program=$!
for second in $(seq 240); do
  sleep 1
  colours=$(import -window root -crop 700x400+250+150 png:- | identify -format %k -)
  [ "$colours" -gt 400 ] && break
done
import -window root /srv/first.png
kill $program; wait $program || true
kill $xvfb
[ "$colours" -gt 400 ]
echo "first picture of the demo after about $second s ($colours colours)"
"""


def run(root: Path, command: str, **options: object) -> str:
    """Run a shell line within the bare root; stops everything when it fails.

    In namespaces of its own, so that no mount and no process outlives it.
    """
    inside = [
        "unshare",
        "--mount",
        "--pid",
        "--fork",
        "--kill-child",
        f"--root={root}",
        "--mount-proc",
    ]
    done = subprocess.run(
        [*inside, "/bin/sh", "-c", command],
        text=True, stdout=subprocess.PIPE, stderr=subprocess.STDOUT, check=False, **options,
    )  # fmt: skip
    if done.returncode != 0:
        print(done.stdout[-3000:], file=sys.stderr)
        raise SystemExit(f"This failed in the bare root: {command.strip()[:200]}")
    return done.stdout


def files_of(root: Path) -> set[str]:
    """Every file of the root that does not belong to caches and logs."""
    changing = ("var", "proc", "dev", "sys", "tmp", "root", "run", "srv")
    left_out = [word for name in changing for word in ("-not", "-path", f"./{name}/*")]
    command = ["find", ".", "-xdev", *left_out]
    listed = subprocess.check_output(command, cwd=root, text=True)
    return set(listed.splitlines())


def try_package(package: Path, root: Path, suite: str) -> None:
    """The whole round."""
    begun_s = time.monotonic()
    subprocess.run(["mmdebstrap", "--variant=apt", suite, str(root)], check=True,
                   stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)  # fmt: skip
    print(f"bare {suite}: {time.monotonic() - begun_s:.0f} s")
    shutil.copyfile("/etc/resolv.conf", root / "etc" / "resolv.conf")
    apt = "DEBIAN_FRONTEND=noninteractive apt-get -qq -o APT::Sandbox::User=root"
    run(root, f"{apt} update && {apt} install -y --no-install-recommends {BESIDE}")
    before = files_of(root)
    shutil.copyfile(package, root / "srv" / "showside.deb")
    run(root, f"{apt} install -y --no-install-recommends /srv/showside.deb")
    print(
        "installed:",
        run(root, "dpkg -s showside | grep -E '^(Version|Installed-Size)'").split(),
    )
    print("Python there:", run(root, "command -v python3 || echo none").strip())
    missing = run(root, "find /opt/showside -name '*.so*' -exec ldd {} + 2>/dev/null"
                        " | grep 'not found' | sort -u || true")  # fmt: skip
    print("libraries not found:", missing.strip() or "none")
    print(run(root, "cd /srv && showside demo --out /srv/demo 2>&1 | tail -2; ls /srv/demo"))
    run(root, "desktop-file-validate /usr/share/applications/org.showside.showside.desktop")
    print("kind of a .step:", run(root, "touch /srv/a.step; xdg-mime query filetype /srv/a.step"))
    print(run(root, FIRST_PICTURE, timeout=600))
    run(root, f"{apt} purge -y showside")
    left = {name for name in files_of(root) - before if "showside" in name.lower()}
    print("left after purge:", ", ".join(sorted(left)) or "nothing")
    if left:
        raise SystemExit(1)


def main() -> int:
    """Make the bare root, go through it, throw it away."""
    asked = argparse.ArgumentParser(description=__doc__)
    asked.add_argument("package", type=Path)
    asked.add_argument("--suite", default="bookworm")
    asked.add_argument("--keep", action="store_true", help="keep the bare root")
    given = asked.parse_args()
    root = Path(tempfile.mkdtemp(prefix="bare-"))
    try:
        try_package(given.package.resolve(), root, given.suite)
    finally:
        if given.keep:
            print(f"kept: {root}")
        else:
            shutil.rmtree(root, ignore_errors=True)
    return 0


if __name__ == "__main__":
    raise SystemExit(main())
