"""How much of the rooms with the sums and the files in them the tests run.

    python -m tests.coverage                  every folder that covers them, one after the other
    python -m tests.coverage shop document    these folders, added to what is known already

What is counted stands in pyproject.toml, [tool.coverage]. Needs the package pytest-cov.
"""

import json
import subprocess
import sys
import tempfile
from collections import Counter
from pathlib import Path

ROOT = Path(__file__).resolve().parents[1]
LEAST = 0.9  # of each room
FOLDERS = ("document", "shop", "files", "geometry", "command", "live", "paper")


def main(wanted: list[str]) -> int:
    """Run the tests of each folder and report; 1 if a test failed, or too few lines were run."""
    unknown = [name for name in wanted if not (ROOT / "tests" / name).is_dir()]
    if unknown:
        print(f"There is no folder {unknown[0]} in tests.", file=sys.stderr)
        return 1
    coverage, failed = [sys.executable, "-m", "coverage"], False
    if not wanted:
        subprocess.run([*coverage, "erase"], cwd=ROOT, check=True)
    for name in wanted or FOLDERS:
        print(f"== {name}", flush=True)
        words = ["-m", "pytest", f"tests/{name}", "-q", "--cov", "--cov-append", "--cov-report="]
        failed |= subprocess.run([sys.executable, *words], cwd=ROOT).returncode != 0
    subprocess.run([*coverage, "report"], cwd=ROOT, check=True)
    for room, share in shares(coverage).items():
        print(f"{room}: {share:.1%}")
        failed |= share < LEAST
    return int(failed)


def shares(coverage: list[str]) -> dict[str, float]:
    """What share of each room's lines was run."""
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "lines.json"
        subprocess.run([*coverage, "json", "-q", "-o", str(path)], cwd=ROOT, check=True)
        files = json.loads(path.read_text("utf-8"))["files"]
    lines, run = Counter(), Counter()
    for name, file in files.items():
        room = "/".join(Path(name).parts[:2])
        lines[room] += file["summary"]["num_statements"]
        run[room] += file["summary"]["covered_lines"]
    return {room: run[room] / lines[room] for room in sorted(lines) if lines[room]}


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
