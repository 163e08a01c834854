"""Run one CAD task in a child process: progress, cancel, limits, and a sentence when it dies."""

import multiprocessing
import time
from collections.abc import Callable
from multiprocessing.connection import Connection
from typing import Any

from viewer.errors import UnreadableFile
from viewer.files.step_worker import Task, work
from viewer.progress import Progress
from viewer.words import say

TIME_LIMIT_S = 900.0
_LOOK_S = 0.05  # between two looks at the progress token
_END_S = 2.0


def run_task(
    name: str,
    task: Task,
    progress: Progress,
    limit_s: float = TIME_LIMIT_S,
    entry: Callable[[Connection, Task], None] = work,
) -> dict[str, Any]:
    """The answer of the child to `task`; the child has ended when this returns or raises.

    name : what the user calls the file, for the sentences
    entry : what the child runs
    Raises UnreadableFile (refused, crashed, out of memory, too slow), Cancelled.
    """
    context = multiprocessing.get_context("spawn")  # a fork would copy Qt's threads by half
    ours, theirs = context.Pipe(duplex=False)
    child = context.Process(target=entry, args=(theirs, task), daemon=True)
    try:
        progress.check()
        child.start()
        theirs.close()  # so that the pipe ends when the child does
        return _listen(name, ours, progress, limit_s)
    finally:
        theirs.close()
        ours.close()
        if child.pid is not None:
            child.kill()
            child.join(_END_S)
        if child.exitcode is not None:
            child.close()


def _listen(name: str, pipe: Connection, progress: Progress, limit_s: float) -> dict[str, Any]:
    begun = time.monotonic()
    fraction, doing = 0.0, "Loading the CAD kernel"
    while True:
        try:
            message = pipe.recv() if pipe.poll(_LOOK_S) else None
        except (EOFError, OSError) as error:
            raise UnreadableFile(
                say(
                    "The CAD kernel crashed on {name}, so it was not read; nothing else is "
                    "lost. Export it again from the CAD program, or as 3MF or STL.",
                    name=name,
                )
            ) from error
        spent_s = time.monotonic() - begun
        if message is None or message[0] == "doing":
            if message is not None:
                _, fraction, doing = message
            long = say("{doing} ({spent_s:.0f} s)", doing=say(doing), spent_s=spent_s)
            progress.report(fraction, long if spent_s >= 2.0 else doing)
            if spent_s > limit_s:
                raise UnreadableFile(
                    say(
                        "{name} was given up after {limit_s:.0f} s in the CAD kernel. Choose a "
                        "larger chord error, or export it as 3MF or STL.",
                        name=name,
                        limit_s=limit_s,
                    )
                )
        elif message[0] == "done":
            return message[1]
        else:
            raise _refusal(name, message[1])


def _refusal(name: str, why: str) -> UnreadableFile:
    if why == "memory":
        return UnreadableFile(
            say(
                "{name} does not fit into this computer's memory as triangles. Choose "
                "a larger chord error.",
                name=name,
            )
        )
    refusal = UnreadableFile(
        say(
            "{name} is damaged or not what its ending says: the CAD kernel refuses "
            "it. Export it again from the CAD program.",
            name=name,
        )
    )
    refusal.__cause__ = RuntimeError(why)
    return refusal
