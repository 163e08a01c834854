"""The pinned packages: complete, by hash, without an address, and the program's own in both."""

import re
import tomllib
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]
LOCKS = ("requirements.lock", "requirements-test.lock", "requirements-pack.lock")


def pins(name: str) -> dict[str, list[str]]:
    """Requirement line (name, version, marker) -> its hashes."""
    found: dict[str, list[str]] = {}
    for line in (ROOT / "packaging" / name).read_text("utf-8").splitlines():
        line = line.rstrip("\\ ")
        if line.startswith("    --hash="):
            found[list(found)[-1]].append(line.strip())
        else:
            found[line] = []
    return found


def normal(requirement: str) -> str:
    """The bare name of a requirement, as package indexes compare them."""
    return re.sub(r"[-_.]+", "-", re.match(r"[\w.-]+", requirement).group()).lower()


@pytest.mark.parametrize("name", LOCKS)
def test_each_package_is_pinned_to_one_version_and_known_files(name: str) -> None:
    for requirement, hashes in pins(name).items():
        assert re.fullmatch(r"[a-z0-9-]+==[\w.]+( ; .+)?", requirement)
        assert hashes, requirement
        assert all(re.fullmatch(r"--hash=sha256:[0-9a-f]{64}", each) for each in hashes)


@pytest.mark.parametrize("name", LOCKS)
def test_a_lock_names_no_address(name: str) -> None:
    text = (ROOT / "packaging" / name).read_text("utf-8")
    assert "://" not in text
    assert "index" not in text


@pytest.mark.parametrize("name", LOCKS[1:])
def test_tests_and_packing_use_the_packages_the_program_ships_with(name: str) -> None:
    program, others = pins(LOCKS[0]), pins(name)
    assert {each: others.get(each) for each in program} == program


def test_what_the_project_asks_for_is_locked() -> None:
    project = tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))
    asked = {normal(each) for each in project["project"]["dependencies"]}
    assert asked <= {normal(each) for each in pins("requirements.lock")}
    for group in ("test", "pack"):
        more = {normal(each) for each in project["dependency-groups"][group]}
        assert asked | more <= {normal(each) for each in pins(f"requirements-{group}.lock")}
    small = {normal(each) for each in pins("requirements-test.lock")}
    assert not small & {"pyinstaller", "build", "pytest-cov"}  # set-up fetches nothing for these


def test_the_recipes_do_not_hide_the_library_named_packaging() -> None:
    import packaging.version  # the library, with the top of the checkout on the path as well

    assert packaging.version.Version("2.34") >= packaging.version.Version("2.9")
    assert not (ROOT / "packaging" / "__init__.py").exists()
