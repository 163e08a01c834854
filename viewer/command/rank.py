"""Rank the directions in which parts could be built, best first."""

import argparse
import time
from typing import Any

from viewer.command import options
from viewer.command.answers import plain, process_answer, units_answer
from viewer.command.options import shop_choice
from viewer.command.rank_poses import RankJob, poses_answer, rank_job
from viewer.command.texts import counted, number
from viewer.document.state import State
from viewer.errors import RequestProblem
from viewer.geometry.aims import PRESETS, SHOW_SIDE, weigh_touch
from viewer.geometry.check_directions import check_best
from viewer.geometry.direction_measures import RayedPart
from viewer.geometry.direction_search import (
    USUAL_DIRECTIONS,
    SearchRequest,
    rays_for,
    search_directions,
)
from viewer.geometry.direction_table import DirectionTable
from viewer.geometry.hard_limits import LIMIT_KEYS, cut_directions, limits_left
from viewer.geometry.prepared_part import prepare_part
from viewer.geometry.ranking import KEPT, rank_directions
from viewer.geometry.sensitivity import LIMIT_DEG, TILT_DEG
from viewer.geometry.touch_bound import bound_touch_on_a
from viewer.geometry.what_matters import WhatMatters
from viewer.progress import Progress
from viewer.shop.calibrate import FinishedPrint
from viewer.shop.direction_times import times_of_directions
from viewer.shop.shop import Shop
from viewer.shop.taken_limits import pair_with
from viewer.shop.touch_weight import touch_worth, worth_sentences

MOST_DIRECTIONS = 50_000
OWN_AIM = "own"  # sliders that are those of no preset


def add_rank(parser: argparse.ArgumentParser) -> None:
    """The options of `rank`."""
    parser.add_argument(
        "--directions",
        type=int,
        default=USUAL_DIRECTIONS,
        metavar="N",
        help=f"how many are spread over the sphere (default {USUAL_DIRECTIONS:,})",
    )
    parser.add_argument(
        "--keep", type=int, default=KEPT, metavar="K", help=f"poses to tell of (default {KEPT})"
    )
    parser.add_argument(
        "--aim",
        choices=[preset.key for preset in PRESETS],
        help=f"what matters (default: the sliders of a job file, otherwise {SHOW_SIDE.key})",
    )
    parser.add_argument(
        "--must",
        metavar="LIMITS",
        help=f'hard limits, of {",".join(LIMIT_KEYS)}, or "none" '
        "(default: those of a job file, otherwise all)",
    )
    parser.add_argument(
        "--platform",
        type=options.three_numbers,
        metavar="W,D,H",
        help="build volume in mm for the limit fits (default: that of --machine, if given)",
    )
    parser.add_argument(
        "--scheduler",
        metavar="ADDRESS",
        help="rank on the Dask cluster with its scheduler at tcp://HOST:PORT or tls://HOST:PORT; "
        "certificates are those of Dask's own settings",
    )


def asked_limits(text: str) -> tuple[str, ...]:
    """The limits of `--must`, in their own order."""
    words = [] if text == "none" else [word.strip() for word in text.split(",")]
    for word in words:
        if word not in LIMIT_KEYS:
            raise RequestProblem(
                f'There is no limit called "{word}"; choose from {", ".join(LIMIT_KEYS)}, or none.'
            )
    return tuple(key for key in LIMIT_KEYS if key in words)


def asked_matters(own: WhatMatters, asked: argparse.Namespace) -> WhatMatters:
    """What the job goes by, where `--aim` and `--must` do not say otherwise, each for itself."""
    aim = next((preset for preset in PRESETS if preset.key == asked.aim), None)
    return WhatMatters.of(
        own.weights if aim is None else aim.weights,
        own.limits if asked.must is None else asked_limits(asked.must),
    )


def search_request(state: State, asked: argparse.Namespace, job: RankJob) -> SearchRequest:
    """The search that the words on the command line ask for."""
    if not 1 <= asked.directions <= MOST_DIRECTIONS:
        raise RequestProblem(f"Ask for 1 to {MOST_DIRECTIONS:,} directions with --directions.")
    if not 1 <= asked.keep <= 100:
        raise RequestProblem("Ask for 1 to 100 poses with --keep.")
    if asked.platform is not None and not min(asked.platform) > 0:
        raise RequestProblem("Give the build volume as three lengths above 0, such as 220,220,200.")
    platform = asked.platform
    if platform is None and job.choice.machine:
        platform = job.chosen.machine.build_volume_mm
    matters = asked_matters(state.what_matters, asked)
    worth = touch_worth(pair_with(job.chosen.pair, state.taken))
    return SearchRequest(
        prepare_part(state.part.mesh),
        state.face_classes,
        state.settings,
        directions=asked.directions,
        platform_mm=platform,
        weights=weigh_touch(matters.weights, worth.weight),
        limits=matters.limits,
        further=times_of_directions(job.shop, job.choice, state.settings, job.prints),
    )


def answer_rank(
    state: State,
    asked: argparse.Namespace,
    shop: tuple[Shop, tuple[FinishedPrint, ...]] | None = None,
) -> dict[str, Any]:
    """Search all directions of one part, check the best, and say why they are.

    shop : and the finished prints; if not given, those of the user of this machine
    """
    start = time.monotonic()
    job = rank_job(shop_choice(state.shop_choice, asked), shop)
    request = search_request(state, asked, job)
    *_, table = search_directions(request)
    *_, checked = check_best(request, table, asked.keep)
    limits = limits_left(checked.table, request.limits)
    ranking = rank_directions(checked.table, request.weights, limits, asked.keep)
    cut = cut_directions(checked.table, request.limits)
    rayed = rays_for(request, Progress())
    answer = {
        "file": state.part.file_name,
        "units": units_answer(state.part),
        "process": process_answer(state.settings) | job.names,
        **_matters(state, asked),
        "touch": _touch(state, job, request.limits),
        "directions": len(table),
        "poses": poses_answer(state, rayed, checked, ranking.poses, job),
        "cut": [plain(each) for each in cut.cuts],
        "in_the_way": [plain(each) for each in cut.in_the_way],
        "let_go": [key for key in request.limits if key not in limits],
        **_bound(rayed, checked.table),
        "notes": [*state.part.notes, *request.part.notes],
    }
    return answer | {"seconds": round(time.monotonic() - start, 3)}


def _matters(state: State, asked: argparse.Namespace) -> dict[str, Any]:
    """What the order goes by, and who said so: the command line, the job, or nobody."""
    own = state.what_matters
    matters, usual = asked_matters(own, asked), WhatMatters()
    return {
        "aim": matters.preset or OWN_AIM,
        "sliders": matters.weights,
        "sliders_from": _whose(asked.aim, own.positions != usual.positions),
        "limits": list(matters.limits),
        "limits_from": _whose(asked.must, own.limits != usual.limits),
    }


def _whose(given: str | None, in_the_job: bool) -> str:
    if given is not None:
        return "command line"
    return "job" if in_the_job else "usual"


def _touch(state: State, job: RankJob, limits: tuple[str, ...]) -> dict[str, Any]:
    """By how much marks of supports count with the pair, and why."""
    worth = touch_worth(pair_with(job.chosen.pair, state.taken))
    says = " ".join(worth_sentences(worth, "no-touch-on-a" in limits))
    return {"weight": worth.weight, "low": worth.low, "high": worth.high, "says": says}


def _bound(rayed: RayedPart, table: DirectionTable) -> dict[str, Any]:
    touch = table.column("touch_a_mm2")
    found = bound_touch_on_a(rayed.searched, float(touch.min()))
    if found is None:
        return {}
    return {"touch_on_a_mm2": {"least_possible": found.least_mm2, "least_found": found.found_mm2}}


def _aim_words(answer: dict[str, Any]) -> str:
    return "what matters in the job" if answer["aim"] == OWN_AIM else answer["aim"]


def _matters_lines(answer: dict[str, Any]) -> list[str]:
    """What was taken from the job, as nobody asked for it on the command line."""
    lines = []
    if answer["sliders_from"] == "job":
        set_so = ", ".join(
            f"{key} {position:g}" for key, position in answer["sliders"].items() if position
        )
        lines.append(f"  Sliders as in the job ({set_so or 'all at 0'}); --aim takes others.")
    if answer["limits_from"] == "job":
        names = ", ".join(answer["limits"]) or "none"
        lines.append(f"  Limits as in the job ({names}); --must takes others.")
    return lines


def rank_text(answer: dict[str, Any]) -> str:
    """The poses, best first, each with its reason, and what was cut."""
    lines = [
        f"{answer['file']}: {answer['directions']:,} directions in {answer['seconds']:.1f} s,"
        f" best for {_aim_words(answer)}"
    ]
    lines += _matters_lines(answer)
    lines.append(f"  {answer['touch']['says']}")
    for place, pose in enumerate(answer["poses"], start=1):
        up = ",".join(f"{x:.4g}" for x in pose["up"])
        lines.append(f"{place:>4}. --up {up}   score {pose['score']:.1f}")
        lines.append(f"      {pose['why']}")
        if pose["sensitivity"]["knife_edge"]:
            lines.append(
                f"      On a knife's edge: {TILT_DEG:g}° of tilt or {LIMIT_DEG:g}° of support limit"
                " more make supports touch clearly more."
            )
    for blocked in answer["in_the_way"]:
        lines.append(f"  {blocked['sentence']}")
    for cut in answer["cut"]:
        if cut["directions"]:
            lines.append(
                f"  {counted(cut['directions'], 'direction')} cut by the limit {cut['limit']}"
            )
    bound = answer.get("touch_on_a_mm2")
    if bound and bound["least_found"] > 0:
        lines.append(
            f"  touch on class A: least found {number(bound['least_found'])} mm²,"
            f" no direction has less than {number(bound['least_possible'])} mm²"
        )
    return "\n".join([*lines, *(f"  {note}" for note in answer["notes"])])
