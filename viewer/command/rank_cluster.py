"""`rank` on a Dask cluster: the same answers, worked out by many machines.

Files, marks and shop are read here, so that workers need no common folder; what travels is the part
as read. A few parts more than there are threads are under way, answers are printed in the order of
the files. A worker that dies takes nothing along: the scheduler gives its parts to others. How the
connection is secured is Dask's own affair: its configuration names the certificates (TLS).
"""

import argparse
import sys
from collections import deque
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

from viewer.command import options
from viewer.command.rank import answer_rank
from viewer.document.state import State
from viewer.errors import RequestProblem, ShowsideError
from viewer.files.shop_folder import read_finished_prints, read_user_shop
from viewer.geometry.mesh import frozen
from viewer.words import speak, spoken_language

CONNECT_S = 20
_AHEAD = 2  # parts under way for each thread of the cluster

Outcome = tuple[dict[str, Any] | None, str]  # an answer, or a sentence that says why there is none


def rank_on_cluster(
    asked: argparse.Namespace, tell: Callable[[Path, dict[str, Any] | None, str], None]
) -> None:
    """Rank the files `asked` for on its scheduler; tells the outcome of each, in order.

    Raises RequestProblem without the library for it, or where no scheduler answers.
    """
    with _client(asked.scheduler) as client:
        shop, prints = read_user_shop(), read_finished_prints()
        given = {**vars(asked), "marks": None, "files": []}  # marks are read here
        threads = max(sum(client.nthreads().values()), 1)
        waiting: deque[tuple[Path, Any]] = deque()
        for path in asked.files:
            waiting.append((path, _begin(client, path, asked, given, shop, prints)))
            if len(waiting) > _AHEAD * threads:
                _tell_first(waiting, tell)
        while waiting:
            _tell_first(waiting, tell)


@contextmanager
def _client(address: str) -> Iterator[Any]:
    try:
        from distributed import Client
    except ImportError:
        raise RequestProblem(
            "Ranking on a cluster needs Dask: install Showside with its extra "
            '"cluster" (pip install "showside[cluster]"), or leave out --scheduler.'
        ) from None
    try:
        # Certificates come from Dask's configuration, as for everything else that uses the cluster.
        client = Client(address, timeout=CONNECT_S, set_as_default=False)
    except (OSError, ValueError, TypeError) as problem:
        raise RequestProblem(
            f"No Dask scheduler answers at {address} ({problem}); check the address and, where "
            "the cluster is secured, Dask's own settings (distributed.comm.tls)."
        ) from None
    try:
        if not client.nthreads():
            raise RequestProblem(
                f"The Dask scheduler at {address} has no workers; start some and try again."
            )
        yield client
    finally:
        client.close()


def _begin(client, path, asked, given, shop, prints) -> Any:
    """The future of one file, or the sentence that says why it cannot be read."""
    try:
        state = options.asked_state(path, asked)
    except ShowsideError as problem:
        return str(problem)
    return client.submit(
        rank_on_worker, state, given, shop, prints, spoken_language(), pure=False, retries=2
    )


def _tell_first(waiting: deque, tell: Callable[..., None]) -> None:
    path, future = waiting.popleft()
    if isinstance(future, str):
        tell(path, None, future)
        return
    try:
        result, problem = future.result()
    except Exception as error:  # whatever befell a worker concerns this file alone
        result, problem = None, _on_a_worker(error)
    future.release()
    tell(path, result, problem)


def _on_a_worker(error: Exception) -> str:
    return (
        f"The cluster could not rank it ({type(error).__name__}: {str(error).splitlines()[0]}); "
        "check that every worker has this version of Showside and enough memory."
        if str(error)
        else f"The cluster could not rank it ({type(error).__name__})."
    )


def rank_on_worker(state: State, given: dict[str, Any], shop, prints, language: str) -> Outcome:
    """One part; runs on a worker."""
    speak(language)
    # What travelled may be written to; kernels are compiled for what may not.
    state = state.with_(face_classes=frozen(state.face_classes))
    try:
        return answer_rank(state, argparse.Namespace(**given), (shop, prints)), ""
    except ShowsideError as problem:
        return None, str(problem)


def print_problem(path: Path, problem: str, of_many: bool) -> None:
    """One sentence to stderr, after the file's name where there are many."""
    print(f"{path.name}: {problem}" if of_many else problem, file=sys.stderr)
