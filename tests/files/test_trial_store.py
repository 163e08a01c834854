"""The shop's store of trials: what was acknowledged is there, whatever happens to the program."""

import contextlib
import csv
import sqlite3
import subprocess
import sys
import tempfile
from pathlib import Path

import msgspec
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.shop.made_trials import steps, trial
from viewer.errors import CannotWrite, RequestProblem, UnreadableFile
from viewer.files import trial_store
from viewer.files.trial_store import (
    MIGRATIONS,
    STORE_VERSION,
    forget_trial,
    keep_trial,
    read_stored_trials,
    store_path,
)
from viewer.files.trial_table import COLUMNS, write_trial_table
from viewer.shop.trials import StepResult, known_trials, packed_trials, read_trials

FULL = trial(
    "full", day="2026-11-25", kind="pair-release", pair="PLA with PVA", support="PVA",
    up=(0.6, 0.0, -0.8), spin_deg=12.5, layer_mm=0.15, job="Größe „2“", note="=1+1\nsecond line",
    photo=bytes(range(256)) * 20,
    steps=(
        StepResult(value=0.0, unit="mm", outcome="clean", row="model on support", ra_um=6.25),
        StepResult(value=0.1, unit="mm", outcome="bad", row="support on model", terrace_mm=0.21),
    ),
)  # fmt: skip


def test_every_field_comes_back_oldest_first_and_one_of_the_same_key_is_replaced(tmp_path):
    assert read_stored_trials(tmp_path).trials == ()
    first, second = trial("b"), trial("a", outcomes="ccc")
    for each in (first, FULL, second):
        keep_trial(each, tmp_path)
    assert read_stored_trials(tmp_path).trials == (FULL, second, first)
    changed = msgspec.structs.replace(FULL, steps=steps([0.2], "a", "mm"), photo=b"")
    keep_trial(changed, tmp_path)
    assert read_stored_trials(tmp_path).trials == (changed, second, first)
    assert forget_trial("full", tmp_path)
    assert not forget_trial("full", tmp_path)
    assert read_stored_trials(tmp_path).trials == (second, first)
    with contextlib.closing(sqlite3.connect(store_path(tmp_path))) as store:
        assert store.execute("SELECT count(*) FROM trial_steps").fetchone() == (6,)


TEXT = st.text(st.characters(exclude_categories=["Cs"]), max_size=30)
NUMBER = st.floats(allow_nan=False, allow_infinity=False)
MEASURED = st.none() | st.floats(0, 1e5)


@settings(max_examples=15)
@given(
    st.lists(
        st.builds(
            StepResult, value=NUMBER, unit=st.sampled_from(["deg", "mm"]), row=TEXT,
            outcome=st.sampled_from(["clean", "acceptable", "bad"]), ra_um=MEASURED,
            terrace_mm=MEASURED,
        ),
        min_size=1, max_size=4,
    ),
    TEXT, TEXT, st.binary(max_size=50),
)  # fmt: skip
def test_whatever_is_in_a_trial_comes_back_from_store_and_job(made, note, job, photo):
    one = trial("x", steps=tuple(made), note=note, job=job, photo=photo)
    assert read_trials(packed_trials((one, FULL))) == (one, FULL)
    with tempfile.TemporaryDirectory() as folder:
        keep_trial(one, Path(folder))
        assert read_stored_trials(Path(folder)).trials == (one,)


def test_those_of_shop_and_job_are_each_known_once_as_the_job_has_them():
    shop, job = (trial("a"), trial("b", day="2026-01-01")), (trial("a", outcomes="ccc"),)
    assert known_trials(shop, job) == (shop[1], job[0])


WRITER = """
import sys
from pathlib import Path
from tests.shop.made_trials import trial
from viewer.files.trial_store import keep_trial
number = int(sys.argv[2])
while True:
    keep_trial(trial(f"{number:06d}", photo=bytes(30_000)), Path(sys.argv[1]))
    print(number, flush=True)
    number += 1
"""


def test_killed_in_the_midst_of_writing_every_acknowledged_trial_is_there(tmp_path):
    told = 0
    for stop_after in (3, 5, 2, 7):
        child = subprocess.Popen(
            [sys.executable, "-c", WRITER, str(tmp_path), str(told)],
            stdout=subprocess.PIPE, cwd=Path(__file__).resolve().parents[2],
        )  # fmt: skip
        with child:
            for _ in range(stop_after):
                told = int(child.stdout.readline()) + 1
            child.kill()  # while the next is being written
            rest = child.stdout.read().split()
        told = int(rest[-1]) + 1 if rest else told
        found = read_stored_trials(tmp_path)
        keys = [each.key for each in found.trials]
        assert found.notes == ()
        assert keys[:told] == [f"{number:06d}" for number in range(told)]
        assert len(keys) - told in (0, 1)  # written and not yet told
        assert all(len(each.photo) == 30_000 and len(each.steps) == 3 for each in found.trials)
        told = len(keys)
    with contextlib.closing(sqlite3.connect(store_path(tmp_path))) as store:
        assert store.execute("PRAGMA integrity_check").fetchone() == ("ok",)


def test_a_transaction_under_way_when_the_program_died_is_rolled_back(tmp_path):
    """The journal that a crash leaves, made by copying both files in the midst of a transaction."""
    keep_trial(trial("kept", photo=bytes(3000)), tmp_path)
    path, crashed = store_path(tmp_path), tmp_path / "crashed"
    crashed.mkdir()
    with contextlib.closing(sqlite3.connect(path, isolation_level=None)) as store:
        store.execute("PRAGMA cache_size = 1")  # so that pages reach the file before the commit
        store.execute("PRAGMA cache_spill = 1")
        store.execute("BEGIN IMMEDIATE")
        store.execute("UPDATE trials SET note = 'lost', photo = ?", (bytes(2_000_000),))
        journal = path.with_name(f"{path.name}-journal")
        for each in (path, journal):
            (crashed / each.name).write_bytes(each.read_bytes())
    assert len((crashed / journal.name).read_bytes()) > 0
    assert (crashed / path.name).stat().st_size > 2 * path.stat().st_size  # it was being changed
    assert read_stored_trials(crashed).trials == (trial("kept", photo=bytes(3000)),)


def hand_made(path, version, statements=()):
    with contextlib.closing(sqlite3.connect(path)) as store:
        for step in MIGRATIONS[: min(version, STORE_VERSION)]:
            for statement in step:
                store.execute(statement)
        for statement in statements:
            store.execute(statement)
        store.execute(f"PRAGMA user_version = {version}")
        store.execute(f"PRAGMA application_id = {0x53484F57}")
        store.commit()


OLD = (
    "INSERT INTO trials VALUES ('old', '2025-01-31', 'bridge-ladder', 'M', 'PLA', 'PLA', 'P', 0.2, "
    "'lid', 'sagged', x'')",
    "INSERT INTO trial_steps VALUES ('old', 1, 10.0, 'mm', 'bad')",
    "INSERT INTO trial_steps VALUES ('old', 0, 5.0, 'mm', 'clean')",
)


def test_an_older_store_is_read_as_it_is_and_brought_up_to_date_by_the_first_writing(tmp_path):
    path = store_path(tmp_path)
    hand_made(path, 1, OLD)
    before = path.read_bytes()
    (old,) = read_stored_trials(tmp_path).trials
    assert (old.up, old.spin_deg) == ((0.0, 0.0, 1.0), 0.0)
    assert [(s.value, s.outcome, s.row, s.ra_um) for s in old.steps] == [
        (5.0, "clean", "", None), (10.0, "bad", "", None),
    ]  # fmt: skip
    assert path.read_bytes() == before
    keep_trial(FULL, tmp_path)
    assert read_stored_trials(tmp_path).trials == (old, FULL)
    with contextlib.closing(sqlite3.connect(path)) as store:
        assert store.execute("PRAGMA user_version").fetchone() == (STORE_VERSION,)


def test_a_migration_that_fails_leaves_the_older_store_as_it_was(tmp_path, monkeypatch):
    hand_made(store_path(tmp_path), 1, OLD)
    broken = (*MIGRATIONS[:1], ("ALTER TABLE trials ADD COLUMN new TEXT", "ALTER TABLE nothing"))
    monkeypatch.setattr(trial_store, "MIGRATIONS", broken)
    before = read_stored_trials(tmp_path)
    with pytest.raises(CannotWrite):
        keep_trial(FULL, tmp_path)
    assert read_stored_trials(tmp_path) == before
    with contextlib.closing(sqlite3.connect(store_path(tmp_path))) as store:
        assert store.execute("PRAGMA user_version").fetchone() == (1,)
        assert len(store.execute("PRAGMA table_info(trials)").fetchall()) == 11


def test_a_newer_store_is_shown_and_not_changed(tmp_path):
    path = store_path(tmp_path)
    newer = (
        OLD[0].replace("x'')", "x'', 0, 0, 1, 0)"),
        OLD[2].replace("'clean')", "'clean', '', NULL, NULL)"),
        "ALTER TABLE trials ADD COLUMN mood TEXT",
        "INSERT INTO trials SELECT 'new', day, 'hologram', machine, model, support, pair, layer_mm,"
        " job, note, photo, 0, 0, 1, 0, 'good' FROM trials",
    )
    hand_made(path, STORE_VERSION + 1, newer)
    before = path.read_bytes()
    found = read_stored_trials(tmp_path)
    assert [each.key for each in found.trials] == ["old"]
    assert found.read_only
    assert "left aside: 1" in found.notes[0]
    assert "newer version of the program" in found.notes[1]
    for change in (lambda: keep_trial(FULL, tmp_path), lambda: forget_trial("old", tmp_path)):
        with pytest.raises(CannotWrite, match="newer version of the program"):
            change()
    assert path.read_bytes() == before


def test_a_store_that_somebody_else_holds_is_told_and_nothing_is_lost(tmp_path, monkeypatch):
    keep_trial(FULL, tmp_path)
    monkeypatch.setattr(trial_store, "WAIT_S", 0.05)
    with contextlib.closing(sqlite3.connect(store_path(tmp_path), isolation_level=None)) as other:
        other.execute("BEGIN EXCLUSIVE")
        with pytest.raises(CannotWrite, match=r"Another program is using trials\.sqlite"):
            keep_trial(trial(), tmp_path)
        with pytest.raises(UnreadableFile, match=r"Another program is using trials\.sqlite"):
            read_stored_trials(tmp_path)
        other.execute("ROLLBACK")
    assert read_stored_trials(tmp_path).trials == (FULL,)


def test_a_file_that_is_no_store_of_ours_is_told_and_left_alone(tmp_path):
    path = store_path(tmp_path)
    path.write_bytes(b"not a database, " * 100)
    with pytest.raises(UnreadableFile, match="move it away to begin anew"):
        read_stored_trials(tmp_path)
    with pytest.raises(CannotWrite, match="move it away to begin anew"):
        keep_trial(FULL, tmp_path)
    assert path.read_bytes() == b"not a database, " * 100
    path.unlink()
    with contextlib.closing(sqlite3.connect(path)) as other:
        other.execute("CREATE TABLE trials (key TEXT)")
    with pytest.raises(UnreadableFile, match="is no store of trials"):
        read_stored_trials(tmp_path)
    with pytest.raises(UnreadableFile, match="is no store of trials"):
        keep_trial(FULL, tmp_path)
    (tmp_path / "file").write_text("x", "utf-8")
    with pytest.raises(CannotWrite):
        keep_trial(FULL, tmp_path / "file" / "shop")


def test_a_commit_waits_for_the_disk(tmp_path):
    with contextlib.closing(trial_store._connect(store_path(tmp_path))) as store:
        for name, wanted in (("synchronous", 3), ("fullfsync", 1), ("foreign_keys", 1)):
            assert store.execute(f"PRAGMA {name}").fetchone() == (wanted,)
        assert store.execute("PRAGMA journal_mode").fetchone() == ("delete",)


@pytest.mark.parametrize(
    ("wrong", "sentence"),
    [
        ({"day": "26.11.2026"}, "write its day"), ({"day": "2026-13-01"}, "write its day"),
        ({"kind": "hologram"}, "choose the test piece"), ({"steps": ()}, "at least one step"),
        ({"layer_mm": 0.0}, "its layer"), ({"up": (0.0, 0.0, 0.0)}, "a direction"),
        ({"photo": bytes(4_000_001)}, "less than 4 MB"), ({"machine": "x" * 81}, "too long"),
        ({"steps": (StepResult(value=1, unit="mm", outcome="bad", ra_um=-1),)}, "not be negative"),
        ({"steps": (StepResult(value=float("nan"), unit="mm", outcome="bad"),)}, "be a number"),
    ],
)  # fmt: skip
def test_a_trial_that_means_nothing_is_refused(wrong, sentence):
    with pytest.raises(RequestProblem, match=sentence):
        trial(**wrong)


def test_the_table_has_a_row_for_each_step_and_no_formula(tmp_path):
    write_trial_table((FULL, trial()), tmp_path / "trials.csv")
    with open(tmp_path / "trials.csv", encoding="utf-8-sig", newline="") as file:
        rows = list(csv.DictReader(file))
    assert tuple(rows[0]) == COLUMNS
    assert len(rows) == 5
    assert [rows[0][name] for name in ("step", "row", "outcome", "ra_um", "terrace_mm")] == [
        "0", "model on support", "clean", "6.25", "",
    ]  # fmt: skip
    assert (rows[1]["terrace_mm"], rows[1]["photo"]) == ("0.21", "yes")
    assert rows[0]["note"] == "'=1+1\nsecond line"
    assert [row["outcome"] for row in rows[2:]] == ["bad", "acceptable", "clean"]
    with pytest.raises(CannotWrite, match="No result is written down"):
        write_trial_table((), tmp_path / "none.csv")
