"""The trials inside a job, so that one opened elsewhere shows what was printed for it.

Metadata/showside-trials.bin     MessagePack (msgpack.org), photos as the bytes of their files
"""

import zipfile

import msgspec

from viewer.errors import RequestProblem
from viewer.shop.trials import Trial, packed_trials, read_trials
from viewer.words import say

TRIALS_PART = "Metadata/showside-trials.bin"
MOST_TRIAL_BYTES = 200_000_000


def trials_content(trials: tuple[Trial, ...]) -> bytes | None:
    """What a job keeps of its trials; None where it has none.

    Where all photos would be too much, those of the oldest trials stay in the shop alone.
    """
    if not trials:
        return None
    room, kept = MOST_TRIAL_BYTES // 2, []
    for trial in reversed(trials):
        room -= len(trial.photo)
        kept.append(trial if room >= 0 else _without_photo(trial))
    return packed_trials(tuple(reversed(kept)))


def trials_in(package: zipfile.ZipFile) -> tuple[tuple[Trial, ...], tuple[str, ...]]:
    """The trials of a job and, where they are damaged, a sentence in their place."""
    if TRIALS_PART not in package.namelist():
        return (), ()
    damaged = (say("The trials that this job keeps are damaged and were left aside."),)
    if package.getinfo(TRIALS_PART).file_size > MOST_TRIAL_BYTES:
        return (), damaged
    try:
        trials = read_trials(package.read(TRIALS_PART))
    except RequestProblem:
        return (), damaged
    if len({each.key for each in trials}) != len(trials):
        return (), damaged
    return trials, ()


def _without_photo(trial: Trial) -> Trial:
    return msgspec.structs.replace(trial, photo=b"")
