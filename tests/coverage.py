"""How much of the rooms with the sums and the files in them the tests run.

    python -m tests.coverage                  every folder that covers them, one after the other
    python -m tests.coverage shop document    these folders, added to what is known already

What is counted stands in pyproject.toml, [tool.coverage]. Needs the package pytest-cov.
"""

import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parents[1]
FOLDERS = ("document", "shop", "files", "geometry", "command", "live", "paper")


def main(wanted: list[str]) -> int:
    """Run the tests of each folder and report; 1 if a test failed or a folder is not there."""
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
    return int(failed)


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
