"""Run a plain function in a process of its own, for work that nothing else can interrupt.

Some native code holds the interpreter lock for seconds, cannot be asked to stop, or takes the whole
program with it when it crashes. In a child process it does none of that: the window goes on, a
cancel ends the child, a crash becomes one sentence.

The child is a fresh interpreter ("spawn": a fork would copy the threads of the window by half). It
imports the module of the function, not the main program, so that module should import little.
Arrays travel beside the pickle (protocol 5), in pieces small enough that neither side holds its
interpreter lock for long.
"""

import math
import multiprocessing
import os
import pickle
import signal
import threading
import time
import traceback
from collections.abc import Callable
from multiprocessing.connection import Connection
from multiprocessing.process import BaseProcess
from typing import Any

import numpy as np

from viewer.errors import ShowsideError
from viewer.progress import Progress
from viewer.words import later, say, speak, spoken_language

LOOK_S = 0.01  # between two looks at the progress token
_TELL_S = 0.03  # between two progress reports of the child; more would only fill the pipe
_END_S = 1.0  # a child that was asked to end and is still there after this is killed
_PIECE = 1 << 18  # bytes that travel at a time

CRASHED = later(
    "The calculation came to a sudden end in its own process, perhaps for lack of memory. "
    "Nothing was changed; close other programs and try again."
)


def run_in_own_process(
    function: Callable[..., Any],
    *arguments: Any,
    progress: Progress | None = None,
    crashed: str = CRASHED,
    limit_s: float = 0.0,
    memory_bytes: int = 0,
) -> Any:
    """What `function(*arguments, progress=…)` returns, worked out in a child process.

    function : at the top level of a module; its `progress` reports to ours
    arguments, and the result : anything that can be pickled; arrays arrive as copies
    crashed : the sentence for the user when the child dies without an answer
    limit_s : 0, or how long the child may take before it is ended, which counts as a crash
    memory_bytes : 0, or the most address space it may take, where the system can limit it; beyond
        that it raises MemoryError, or dies where native code does not expect that

    Raises what the function raises, Cancelled within some 20 ms of a cancel wherever the child is,
    ShowsideError(crashed). The child has been told to end when this returns or raises. In a process
    that is such a child already, which may have none itself, it is worked out there.
    """
    progress = progress or Progress()
    if multiprocessing.current_process().daemon:
        return function(*arguments, progress=progress)
    task = _packed(
        (function, arguments, spoken_language(), memory_bytes)
    )  # before a child starts, as this may not be picklable
    ends_s = time.monotonic() + (limit_s or math.inf)
    context = multiprocessing.get_context("spawn")
    ours, theirs = context.Pipe()
    child = context.Process(target=_work, args=(theirs,), daemon=True)
    try:
        progress.check()
        child.start()
        theirs.close()  # so that the pipe ends when the child does
        _await(ours, progress, ends_s)
        ours.recv()  # "up"; earlier, the task would get stuck in the pipe and no cancel be heard
        _send(ours, task, progress)
        while True:
            _await(ours, progress, ends_s)
            kind, value = _receive(ours, progress)
            if kind != "doing":
                break
            progress.report(*value)
    except (EOFError, ConnectionError, TimeoutError) as error:
        raise ShowsideError(say(crashed)) from error
    finally:
        theirs.close()
        ours.close()
        if child.pid is not None:
            _end(child)
    if kind == "failed":
        raise value
    return value


def _await(pipe: Connection, progress: Progress, ends_s: float) -> None:
    """Wait for a message; raises Cancelled, TimeoutError after the moment `ends_s`."""
    progress.check()
    while not pipe.poll(LOOK_S):
        progress.check()
        if time.monotonic() > ends_s:
            raise TimeoutError


def _end(child: BaseProcess) -> None:
    """End the child; if it takes long to give back its memory, nobody waits for that."""
    child.terminate()
    child.join(LOOK_S)
    if child.exitcode is None:
        threading.Thread(target=_make_sure, args=(child,), daemon=True).start()
    else:
        child.close()


def _make_sure(child: BaseProcess) -> None:
    child.join(_END_S)
    if child.exitcode is None:
        child.kill()
        child.join()
    child.close()


# --- memory
def memory_limit_bytes() -> int:
    """Three quarters of the computer's memory, 2 GB at least; 0 where the system does not tell."""
    try:
        total = os.sysconf("SC_PAGE_SIZE") * os.sysconf("SC_PHYS_PAGES")
    except (AttributeError, ValueError, OSError):
        return 0
    return max(2_000_000_000, total * 3 // 4)


def limit_memory(memory_bytes: int) -> None:
    """Let this process take no more; Linux keeps to it, macOS may not, Windows cannot."""
    if memory_bytes <= 0:
        return
    try:
        import resource
    except ImportError:
        return
    _, hard = resource.getrlimit(resource.RLIMIT_AS)
    most = memory_bytes if hard == resource.RLIM_INFINITY else min(memory_bytes, hard)
    try:
        resource.setrlimit(resource.RLIMIT_AS, (most, hard))
    except (ValueError, OSError):
        return


# --- messages: a short pickle, then the memory of its arrays
_Packed = tuple[bytes, list[memoryview]]


def _packed(thing: Any) -> _Packed:
    buffers: list[memoryview] = []
    head = pickle.dumps(
        thing, protocol=5, buffer_callback=lambda buffer: buffers.append(buffer.raw())
    )
    return head, buffers


def _send(pipe: Connection, packed: _Packed, progress: Progress) -> None:
    head, buffers = packed
    pipe.send((head, [buffer.nbytes for buffer in buffers]))
    for buffer in buffers:
        for start in range(0, buffer.nbytes, _PIECE):
            pipe.send_bytes(buffer[start : start + _PIECE])
            progress.check()


def _receive(pipe: Connection, progress: Progress) -> Any:
    head, sizes = pipe.recv()
    buffers = [np.empty(size, np.uint8) for size in sizes]
    for buffer in buffers:
        for start in range(0, len(buffer), _PIECE):
            pipe.recv_bytes_into(buffer[start : start + _PIECE])
            progress.check()
    return pickle.loads(head, buffers=buffers)


# --- the child
def _work(pipe: Connection) -> None:
    """Entry of the child: receive the task, do it, send ("done", result) or ("failed", error)."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)  # Ctrl-C is for the parent, which ends the child
    unstopped, last_s = Progress(), 0.0
    try:
        pipe.send("up")
        function, arguments, language, memory_bytes = _receive(pipe, unstopped)
    except (EOFError, ConnectionError):  # whoever asked is gone
        return
    speak(language)
    limit_memory(memory_bytes)
    end_with_parent()

    def tell(fraction: float, doing: str) -> None:
        nonlocal last_s
        now_s = time.monotonic()
        if now_s - last_s >= _TELL_S:
            last_s = now_s
            _send(pipe, _packed(("doing", (fraction, doing))), unstopped)

    try:
        answer = _packed(("done", function(*arguments, progress=Progress(tell))))
    except Exception as error:
        answer = _packed(("failed", _sendable(error)))
    _send(pipe, answer, unstopped)


def _sendable(error: Exception) -> Exception:
    """The error with its place as a note; where it cannot travel, its words alone."""
    place = "".join(traceback.format_exception(error))
    error.add_note(place)
    try:
        pickle.loads(pickle.dumps(error))
    except Exception:
        error = RuntimeError(place)
    return error


def end_with_parent() -> None:
    """However the parent ends, this process does not outlive it."""
    threading.Thread(target=_wait_for_the_end, daemon=True).start()


def _wait_for_the_end() -> None:
    parent = multiprocessing.parent_process()
    if parent is not None:
        parent.join()
        os._exit(1)
