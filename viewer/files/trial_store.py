"""The shop's own store of trials: one SQLite file among the shop's things.

    trials       key, day, kind, machine, model, support, pair, layer, pose, job, note, photo
    trial_steps  value, unit, row, outcome, measured Ra and terrace of each step, in order

What `keep_trial` has returned from is on the disk: a rollback journal with synchronous = EXTRA
(sqlite.org/pragma.html: "EXTRA provides additional durability if the commit is followed closely by
a power loss", READ) and, where the system knows it, fullfsync. A write-ahead log would be quicker,
but "all processes using a database must be on the same host computer; WAL does not work over a
network filesystem" (sqlite.org/wal.html, READ), and a shop may lie on a shared drive.

`PRAGMA user_version` tells the store's version; an older store is brought up to date in one
transaction, a newer one is only read.
"""

import sqlite3
from collections.abc import Iterator
from contextlib import closing, contextmanager
from dataclasses import dataclass
from pathlib import Path

from viewer.errors import CannotWrite, RequestProblem, UnreadableFile
from viewer.files.atomic_write import make_folder
from viewer.files.shop_folder import shop_folder
from viewer.shop.trials import StepResult, Trial
from viewer.words import say

STORE_NAME = "trials.sqlite"
WAIT_S = 2.0  # for another program to finish with the store
_APPLICATION_ID = 0x53484F57  # "SHOW": tells our store from any other SQLite file

# What brings a store from version k to version k + 1. None is ever changed once it was delivered.
MIGRATIONS: tuple[tuple[str, ...], ...] = (
    (
        """CREATE TABLE trials (
            key TEXT PRIMARY KEY, day TEXT NOT NULL, kind TEXT NOT NULL, machine TEXT NOT NULL,
            model TEXT NOT NULL, support TEXT NOT NULL, pair TEXT NOT NULL,
            layer_mm REAL NOT NULL, job TEXT NOT NULL, note TEXT NOT NULL, photo BLOB NOT NULL)""",
        """CREATE TABLE trial_steps (
            trial TEXT NOT NULL REFERENCES trials(key) ON DELETE CASCADE, place INTEGER NOT NULL,
            value REAL NOT NULL, unit TEXT NOT NULL, outcome TEXT NOT NULL,
            PRIMARY KEY (trial, place))""",
    ),
    (
        "ALTER TABLE trials ADD COLUMN up_x REAL NOT NULL DEFAULT 0",
        "ALTER TABLE trials ADD COLUMN up_y REAL NOT NULL DEFAULT 0",
        "ALTER TABLE trials ADD COLUMN up_z REAL NOT NULL DEFAULT 1",
        "ALTER TABLE trials ADD COLUMN spin_deg REAL NOT NULL DEFAULT 0",
        "ALTER TABLE trial_steps ADD COLUMN row TEXT NOT NULL DEFAULT ''",
        "ALTER TABLE trial_steps ADD COLUMN ra_um REAL",
        "ALTER TABLE trial_steps ADD COLUMN terrace_mm REAL",
    ),
)
STORE_VERSION = len(MIGRATIONS)
_TRIAL = (
    "key", "day", "kind", "machine", "model", "support", "pair", "layer_mm", "job", "note", "photo",
    "up_x", "up_y", "up_z", "spin_deg",
)  # fmt: skip
_STEP = ("value", "unit", "outcome", "row", "ra_um", "terrace_mm")


@dataclass(frozen=True)
class StoredTrials:
    """What the store holds, oldest first.

    notes : sentences about what was left aside, and why nothing can be kept; read_only : so it is
    """

    trials: tuple[Trial, ...] = ()
    notes: tuple[str, ...] = ()
    read_only: bool = False


def store_path(folder: Path | None = None) -> Path:
    """Where the store of that shop is; it need not be there yet."""
    return (folder or shop_folder()) / STORE_NAME


def read_stored_trials(folder: Path | None = None) -> StoredTrials:
    """All trials of the shop. Raises UnreadableFile for a file that is no store, or locked."""
    path = store_path(folder)
    if not path.is_file():
        return StoredTrials()
    with _refusals(path, UnreadableFile), closing(_connect(path, read_only=True)) as store:
        version = _version(store, path)
        if version == 0:
            return StoredTrials()
        rows = store.execute(f"SELECT {_columns(store, 'trials', _TRIAL)} FROM trials").fetchall()
        steps = store.execute(
            f"SELECT trial, {_columns(store, 'trial_steps', _STEP)} FROM trial_steps "
            "ORDER BY trial, place"
        ).fetchall()
    trials, notes = _trials_of(rows, steps)
    if version > STORE_VERSION:
        notes.append(_newer(path))
    return StoredTrials(trials, tuple(notes), version > STORE_VERSION)


def keep_trial(trial: Trial, folder: Path | None = None) -> None:
    """Put a trial into the shop's store, in place of that of the same key. Raises CannotWrite."""
    path = store_path(folder)
    make_folder(path.parent)
    with _writing(path) as store:
        row = (*(getattr(trial, name) for name in _TRIAL[:11]), *trial.up, trial.spin_deg)
        store.execute("DELETE FROM trials WHERE key = ?", (trial.key,))
        store.execute(f"INSERT INTO trials ({', '.join(_TRIAL)}) VALUES ({_marks(row)})", row)
        for place, step in enumerate(trial.steps):
            values = (trial.key, place, *(getattr(step, name) for name in _STEP))
            names = ", ".join(("trial", "place", *_STEP))
            store.execute(f"INSERT INTO trial_steps ({names}) VALUES ({_marks(values)})", values)


def forget_trial(key: str, folder: Path | None = None) -> bool:
    """Take a trial out of the store; False where it is not in it. Raises CannotWrite."""
    path = store_path(folder)
    if not path.is_file():
        return False
    with _writing(path) as store:
        return store.execute("DELETE FROM trials WHERE key = ?", (key,)).rowcount > 0


# --- the file
def _connect(path: Path, read_only: bool = False) -> sqlite3.Connection:
    uri = f"{path.absolute().as_uri()}?mode={'ro' if read_only and not _journal(path) else 'rwc'}"
    store = sqlite3.connect(uri, timeout=WAIT_S, isolation_level=None, uri=True)
    try:
        for setting in ("synchronous = EXTRA", "fullfsync = ON", "foreign_keys = ON"):
            store.execute(f"PRAGMA {setting}")
    except BaseException:
        store.close()
        raise
    return store


def _journal(path: Path) -> bool:
    """Whether a crash has left a journal, which only who may write can roll back."""
    return path.with_name(f"{path.name}-journal").exists()


def _version(store: sqlite3.Connection, path: Path) -> int:
    version = store.execute("PRAGMA user_version").fetchone()[0]
    owner = store.execute("PRAGMA application_id").fetchone()[0]
    tables = store.execute("SELECT count(*) FROM sqlite_master").fetchone()[0]
    if tables and owner != _APPLICATION_ID:
        raise UnreadableFile(
            say("{name} is no store of trials; move it away to begin anew.", name=path.name)
        )
    return version


@contextmanager
def _writing(path: Path) -> Iterator[sqlite3.Connection]:
    """One transaction on a store that is up to date: all of it, or nothing."""
    with _refusals(path, CannotWrite), closing(_connect(path)) as store:
        store.execute("BEGIN IMMEDIATE")
        try:
            version = _version(store, path)
            if version > STORE_VERSION:
                raise CannotWrite(_newer(path))
            _migrate(store, version)
            yield store
            store.execute("COMMIT")
        except BaseException:
            if store.in_transaction:
                store.execute("ROLLBACK")
            raise


def _migrate(store: sqlite3.Connection, version: int) -> None:
    for step in MIGRATIONS[version:]:
        for statement in step:
            store.execute(statement)
    if version < STORE_VERSION:
        store.execute(f"PRAGMA user_version = {STORE_VERSION}")
        store.execute(f"PRAGMA application_id = {_APPLICATION_ID}")


@contextmanager
def _refusals(path: Path, kind: type[UnreadableFile] | type[CannotWrite]) -> Iterator[None]:
    """What SQLite refuses, as a sentence."""
    try:
        yield
    except sqlite3.Error as error:
        code = getattr(error, "sqlite_errorcode", 0) & 0xFF
        if code in (sqlite3.SQLITE_BUSY, sqlite3.SQLITE_LOCKED):
            sentence = say(
                "Another program is using {name}; close it there and try again.", name=path.name
            )
        elif code in (sqlite3.SQLITE_READONLY, sqlite3.SQLITE_CANTOPEN, sqlite3.SQLITE_PERM):
            sentence = say(
                "{name} cannot be opened for writing; see who may write in the folder {folder}.",
                name=path.name, folder=path.parent,
            )  # fmt: skip
        elif code == sqlite3.SQLITE_FULL:
            sentence = say("The disk is full, so the trial was not kept in the shop; free some "
                           "space.")  # fmt: skip
        else:
            sentence = say(
                "{name} is damaged or no store of trials ({error}); move it away to begin anew.",
                name=path.name, error=error,
            )  # fmt: skip
        raise kind(sentence) from error


def _newer(path: Path) -> str:
    return say(
        "{name} was written by a newer version of the program, so trials are shown but not changed "
        "in it. Update the program.",
        name=path.name,
    )


# --- rows
def _columns(store: sqlite3.Connection, table: str, wanted: tuple[str, ...]) -> str:
    """The columns to ask for; what an older store lacks is asked for as NULL."""
    there = {row[1] for row in store.execute(f"PRAGMA table_info({table})")}
    return ", ".join(name if name in there else f"NULL AS {name}" for name in wanted)


def _trials_of(rows: list[tuple], steps: list[tuple]) -> tuple[tuple[Trial, ...], list[str]]:
    of_trial: dict[str, list[tuple]] = {}
    for key, *values in steps:
        of_trial.setdefault(key, []).append(values)
    trials, broken = [], 0
    for row in rows:
        try:
            trials.append(_trial(row, of_trial.get(row[0], [])))
        except (RequestProblem, TypeError, ValueError):
            broken += 1
    notes = [_left_aside(broken)] if broken else []
    return tuple(sorted(trials, key=lambda each: (each.day, each.key))), notes


def _left_aside(count: int) -> str:
    return say("Trials that this version does not know, left aside: {count}.", count=count)


def _trial(row: tuple, steps: list[tuple]) -> Trial:
    values = dict(zip(_TRIAL, row, strict=True))
    up = [values.pop(name) for name in ("up_x", "up_y", "up_z")]
    spin_deg = values.pop("spin_deg") or 0.0
    results = []
    for step in steps:
        of_step = dict(zip(_STEP, step, strict=True))
        if of_step["outcome"] not in ("clean", "acceptable", "bad"):
            raise ValueError(of_step["outcome"])
        results.append(StepResult(**(of_step | {"row": of_step["row"] or ""})))
    upright = (0.0, 0.0, 1.0) if None in up else tuple(up)
    return Trial(**values, up=upright, spin_deg=spin_deg, steps=tuple(results))


def _marks(values: tuple) -> str:
    return ", ".join("?" * len(values))
