"""The text of an error tells where it arose, and not a word of the part or its file."""

import logging
import os
import subprocess
import sys
import threading
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from viewer.errors import UnreadableFile
from viewer.window import error_text, log_file
from viewer.window.error_text import ErrorKeeper, forget_error, kept_error
from viewer.window.log_file import start_log, stop_log
from viewer.window.masked_text import masked, short_path, told_error

ROOT = Path(__file__).resolve().parents[2]
SECRET = "/data/anna/Kunde Meier/Griff-v3.stl"
NATIVE = """
import ctypes, sys
from pathlib import Path
from viewer.window.error_text import ErrorKeeper
keeper = ErrorKeeper(print, Path(sys.argv[1]))
ctypes.string_at(0)
"""


@pytest.fixture
def keeper(tmp_path, monkeypatch):
    monkeypatch.setattr(error_text.faulthandler, "enable", lambda file: None)
    monkeypatch.setattr(error_text.faulthandler, "disable", lambda: None)
    told = []
    made = ErrorKeeper(lambda: told.append(threading.current_thread().name), tmp_path)
    made.told = told
    yield made
    made.close()


def raised(error: BaseException) -> BaseException:
    try:
        raise error
    except BaseException as caught:
        return caught


def deep_error():
    vertices_mm = [12.375, 99.125]
    try:
        open(SECRET)  # noqa: SIM115 -- it is not there
    except OSError as error:
        raise ValueError(f"'{SECRET}' has {vertices_mm[1]} mm at corner 4711") from error


def test_an_uncaught_error_is_kept_with_its_place_and_without_the_part(keeper, tmp_path):
    try:
        deep_error()
    except ValueError as error:
        sys.excepthook(type(error), error, error.__traceback__)
    text = kept_error(tmp_path)
    assert "deep_error" in text
    assert "ValueError: … has # mm at corner #" in text
    assert "FileNotFoundError: No such file or directory" in text
    for secret in ("anna", "Kunde", "Meier", "Griff", "12.375", "99", "4711", str(Path.home())):
        assert secret not in text.partition("\n  ")[2], secret
    assert keeper.told == ["MainThread"]
    forget_error(tmp_path)
    assert kept_error(tmp_path) == ""


def test_an_error_in_a_thread_is_kept_too_and_a_hail_of_them_only_in_part(keeper, tmp_path):
    for _ in range(2 * error_text.MOST_ERRORS):
        thread = threading.Thread(target=deep_error, name="worker")
        thread.start()
        thread.join()
    assert keeper.told == ["worker"] * error_text.MOST_ERRORS
    assert kept_error(tmp_path).count("ValueError") == error_text.MOST_ERRORS


@pytest.mark.parametrize(
    ("error", "told"),
    [
        (KeyError("Kunde Meier"), "KeyError"),
        (UnreadableFile("Griff is broken"), "UnreadableFile"),
        (PermissionError(13, "Permission denied", SECRET), "PermissionError: Permission denied"),
        (IndexError("index 7 is out of bounds for axis 0 with size 3"),
         "IndexError: index # is out of bounds for axis # with size #"),
    ],
)  # fmt: skip
def test_words_that_may_hold_anything_are_left_out(error, told):
    assert told_error(raised(error)).splitlines()[-1] == told


@given(st.text(alphabet=st.characters(codec="utf-8", exclude_characters="'\0"), max_size=40))
def test_nothing_between_quotes_gets_through(secret):
    assert masked(f"cannot read '{secret}' now") == "cannot read … now"


@given(st.floats(allow_nan=False, allow_infinity=False), st.integers())
def test_no_figure_gets_through(number, count):
    assert not any(sign.isdigit() for sign in masked(f"at {number!r} mm of {count} faces"))


def test_a_path_begins_at_its_package():
    assert short_path("/data/anna/x/viewer/scene/actors.py") == "viewer/scene/actors.py"
    assert short_path("/data/anna/lib/site-packages/numpy/core.py") == "numpy/core.py"
    assert short_path("/data/anna/thing.py") == "thing.py"


def test_a_crash_of_native_code_is_offered_by_the_next_start(tmp_path):
    environment = {**os.environ, "PYTHONPATH": str(ROOT), "PYTHONFAULTHANDLER": ""}
    ran = subprocess.run(
        [sys.executable, "-c", NATIVE, str(tmp_path)], env=environment,
        capture_output=True, text=True, timeout=120,
    )  # fmt: skip
    assert ran.returncode != 0
    error_text.take_native_text(tmp_path)
    text = kept_error(tmp_path)
    assert "string_at" in text
    assert str(ROOT) not in text
    assert not (tmp_path / error_text.NATIVE_FILE).exists()


def test_an_orderly_end_leaves_no_text(keeper, tmp_path):
    keeper.close()
    assert kept_error(tmp_path) == ""
    assert not (tmp_path / error_text.NATIVE_FILE).exists()


def test_the_log_tells_the_version_and_masks_everything_else(tmp_path, monkeypatch):
    monkeypatch.setattr(log_file, "qInstallMessageHandler", lambda handler: None)
    handler = start_log(tmp_path)
    logging.getLogger("viewer.files").warning("could not read %s at %f mm", SECRET, 12.375)
    try:
        deep_error()
    except ValueError:
        logging.getLogger("viewer.live.jobs").exception("a job failed unexpectedly")
    stop_log(handler)
    text = (tmp_path / "showside.log").read_text(encoding="utf-8")
    assert f"Showside {log_file.__version__}" in text
    assert "could not read … at # mm" in text
    assert "in deep_error" in text
    for secret in ("anna", "Meier", "Griff", "12.375", "4711"):
        assert secret not in text, secret
    assert logging.getLogger("viewer").propagate


def test_where_the_log_cannot_be_written_the_program_goes_on(tmp_path):
    blocked = tmp_path / "file"
    blocked.write_bytes(b"")
    assert start_log(blocked / "log") is None
    stop_log(None)
