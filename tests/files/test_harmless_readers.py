"""No reader writes a file, starts a program or opens the network, whatever the file asks for.

Python's audit events (PEP 578) are listened to in a process of its own, since nobody can stop
listening; what native code writes is seen by what stands in the folders afterwards.
"""

import os
import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
LISTEN = """
import os, sys
from pathlib import Path
from tests.fuzz.changes import SUFFIXES, changed, seeds
from tests.fuzz.campaign import read_one
from viewer.files import threemf_file
threemf_file.SMALL_BYTES = 1 << 60  # in this process, whose events are heard
folder, kinds, heard = Path(sys.argv[1]), ("stl", "obj", "ply", "off", "3mf"), []
beginnings = {kind: seeds(kind) for kind in kinds}
asks = b"mtllib ../../../etc/passwd\\nmtllib http://example.org/x.mtl\\nmap_Kd /etc/passwd\\n"
beginnings["obj"] += [asks + text for text in beginnings["obj"][:1]]

def read_all(count):
    for kind in kinds:
        inputs = beginnings[kind] + [changed(kind, beginnings[kind], 3, n) for n in range(count)]
        for number, content in enumerate(inputs):
            path = folder / f"{kind}{number}{SUFFIXES[kind][0]}"
            path.write_bytes(content)
            listening.append(path)
            try:
                read_one(kind, path)
            finally:
                listening.pop()

def hear(event, details):
    if not listening:
        return
    if event == "open" and isinstance(details[0], (str, bytes)):
        flags = details[2]
        if flags & (os.O_WRONLY | os.O_RDWR | os.O_CREAT) or "passwd" in str(details[0]):
            heard.append((event, str(details[0]), listening[-1].name))
    elif event.split(".")[0] in ("socket", "subprocess", "urllib", "shutil", "ftplib") or event in (
        "os.mkdir", "os.rename", "os.remove", "os.rmdir", "os.system", "os.exec", "os.posix_spawn",
        "os.link", "os.symlink", "os.spawn", "pickle.find_class",
    ):
        heard.append((event, str(details)[:100], listening[-1].name))

listening = []
read_all(0)  # load all that is loaded once, compiled kernels among it
sys.addaudithook(hear)
read_all(25)
print(len(list(folder.iterdir())), heard)
"""


def test_reading_leaves_nothing_and_asks_nobody(tmp_path):
    folders = [tmp_path / name for name in ("files", "cwd", "tmp")]
    for folder in folders:
        folder.mkdir()
    done = subprocess.run(
        [sys.executable, "-c", LISTEN, str(folders[0])],
        cwd=folders[1],
        env=os.environ | {"PYTHONPATH": str(ROOT), "TMPDIR": str(folders[2])},
        capture_output=True,
        text=True,
    )
    assert done.returncode == 0, done.stderr
    count, _, heard = done.stdout.strip().partition(" ")
    assert heard == "[]"
    assert int(count) > 125
    assert len(list(folders[0].iterdir())) == int(count)
    assert list(folders[1].iterdir()) == []
    assert list(folders[2].iterdir()) == []
