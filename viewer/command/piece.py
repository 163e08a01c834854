"""Cut a part into pieces, or one piece out of it, and write each as it will stand."""

import argparse
from pathlib import Path
from typing import Any

import numpy as np

from viewer.command.answers import plain, pose_answer, units_answer
from viewer.command.piece_answers import printing_asked, takes_answer, takes_words
from viewer.command.texts import counted, size_text
from viewer.document.piece_state import state_of_piece
from viewer.document.state import State
from viewer.errors import RequestProblem
from viewer.files.atomic_write import make_folder
from viewer.files.mesh_files import write_posed
from viewer.geometry.closed_part import ClosedPart, closed_part, edges_join
from viewer.geometry.cut_pieces import (
    CutPlane,
    Piece,
    Pieces,
    bodies,
    box_planes,
    cut_out,
    cut_pieces,
    largest_body,
    pose_on_cut_face,
)
from viewer.geometry.dovetails import DovetailSizes, dovetail_pieces
from viewer.geometry.face_classes import sum_by_class
from viewer.geometry.laid_planes import quarter_planes, slab_planes
from viewer.geometry.measure_pose import measure_pose
from viewer.geometry.pose import pose_matrix, posed_vertices_mm
from viewer.geometry.prepared_part import PreparedPart, prepare_part
from viewer.geometry.registration_pins import PinSizes, pin_pieces
from viewer.geometry.split_planes import SplitPlane, propose_splits
from viewer.geometry.worst_patch import MARGIN_MM, WorstPatch, worst_patch
from viewer.shop.piece_numbers import Printing, numbers_of_cut

KINDS = ("touch", "terrace")


def add_piece(parser: argparse.ArgumentParser) -> None:
    """The options of `piece`."""
    _add_cuts(parser)
    _add_cut_outs(parser)
    parser.add_argument(
        "--lay",
        choices=("same", "cut-face"),
        default="same",
        help="pieces in the pose of the whole, or each on its largest cut face (default same)",
    )
    parser.add_argument("--out", required=True, type=Path, metavar="DIR", help="folder to write to")


def _add_cuts(parser: argparse.ArgumentParser) -> None:
    """What leaves all pieces."""
    parser.add_argument(
        "--plane",
        dest="planes",
        type=six_numbers,
        action="append",
        default=[],
        metavar="X,Y,Z,NX,NY,NZ",
        help="a point of the plane and its direction, in part coordinates; may be given again",
    )
    parser.add_argument(
        "--quarters",
        action="store_true",
        help="cut by two upright planes through the middle of the part as it is laid",
    )
    parser.add_argument(
        "--split",
        type=int,
        nargs="?",
        const=1,
        metavar="N",
        help="split along the Nth best plane that crosses no face of class A (default the best)",
    )
    parser.add_argument(
        "--pins",
        dest="pin_mm",
        type=float,
        metavar="MM",
        help="with --plane, --quarters or --split: registration pins of this diameter across each "
        "cut, holes on the other side",
    )
    parser.add_argument(
        "--dovetails",
        dest="dovetail_mm",
        type=float,
        metavar="MM",
        help="the same with a dovetail this wide at its foot, open where no class A is",
    )
    parser.add_argument(
        "--glue-gap",
        dest="glue_gap_mm",
        type=float,
        default=PinSizes.glue_gap_mm,
        metavar="MM",
        help="with --pins or --dovetails: by which holes and slots are wider and deeper"
        f" (default {PinSizes.glue_gap_mm:g})",
    )


def _add_cut_outs(parser: argparse.ArgumentParser) -> None:
    """What leaves one piece out of the part."""
    parser.add_argument(
        "--slab",
        type=two_numbers,
        metavar="LOW,HIGH",
        help="cut out what lies between two heights in mm above the platform",
    )
    parser.add_argument(
        "--box",
        type=six_numbers,
        metavar="X,Y,Z,X,Y,Z",
        help="cut out what lies between two corners, in part coordinates",
    )
    parser.add_argument(
        "--worst",
        choices=KINDS,
        help="cut out the smallest box with the largest touch or terraces on class A",
    )
    parser.add_argument(
        "--margin",
        dest="margin_mm",
        type=float,
        default=MARGIN_MM,
        metavar="MM",
        help=f"with --worst: material around the patch (default {MARGIN_MM:g})",
    )


def six_numbers(text: str) -> tuple[float, ...]:
    """`X,Y,Z,NX,NY,NZ` as six numbers; argparse turns the ValueError into its own sentence."""
    numbers = tuple(float(word) for word in text.split(","))
    if len(numbers) != 6 or not np.isfinite(numbers).all():
        raise ValueError
    return numbers


def two_numbers(text: str) -> tuple[float, float]:
    """`LOW,HIGH` as two numbers."""
    low, high = (float(word) for word in text.split(","))
    return low, high


def answer_piece(state: State, asked: argparse.Namespace) -> dict[str, Any]:
    """Cut one part, write the pieces, and say what each of them is."""
    given = (asked.planes or None, asked.split, asked.quarters or None, asked.box, asked.slab)
    if sum(each is not None for each in (*given, asked.worst)) != 1:
        raise RequestProblem(
            "Say where to cut with --plane X,Y,Z,NX,NY,NZ, --quarters or --split, or cut out a"
            " --box, a --slab or the --worst patch."
        )
    prepared = prepare_part(state.part.mesh)
    part = closed_part(prepared)
    patch = _worst(state, prepared, asked) if asked.worst else None
    splits = ()
    if asked.split is not None:
        splits = propose_splits(prepared, state.face_classes, state.pose)
    planes = _planes(state, patch, splits, asked)
    if patch or asked.box or asked.slab:
        made = cut_out(part, planes)
        names = [f"worst-{asked.worst}" if patch else "box" if asked.box else "slab"]
    else:
        made = _joined(cut_pieces(part, planes), planes, state.face_classes, asked)
        names = [f"piece-{k + 1}" for k in range(len(made.pieces))]
    pieces = [_as_wanted(piece, patch) for piece in made.pieces]
    make_folder(asked.out)
    printing = printing_asked(state, asked)
    answers = [
        _write(state, piece, name, asked, printing)
        for piece, name in zip(pieces, names, strict=True)
    ]
    return {
        "file": state.part.file_name,
        "out": str(asked.out),
        "units": units_answer(state.part),
        "pose": pose_answer(state.part, state.pose),
        "whole": _whole_answer(part),
        "planes": [{"point_mm": list(p.point_mm), "normal": list(p.normal)} for p in planes],
        "pieces": answers,
        "notes": [*state.part.notes, *made.notes],
    } | _more_answers(patch, splits)


def _planes(
    state: State,
    patch: WorstPatch | None,
    splits: tuple[SplitPlane, ...],
    asked: argparse.Namespace,
) -> list[CutPlane]:
    """The planes that were asked for, in part coordinates."""
    matrix = pose_matrix(state.part.mesh.vertices_mm, state.pose)
    if patch:
        return patch.planes
    if asked.split is not None:
        return [_chosen(splits, asked.split)]
    if asked.quarters:
        return quarter_planes(matrix)
    if asked.slab:
        return slab_planes(matrix, *asked.slab)
    if asked.box:
        return box_planes(*_corners_mm(asked.box), np.eye(3))
    return [CutPlane(each[:3], each[3:]) for each in asked.planes]


def _joined(
    made: Pieces, planes: list[CutPlane], face_classes: np.ndarray, asked: argparse.Namespace
) -> Pieces:
    if asked.pin_mm is not None and asked.dovetail_mm is not None:
        raise RequestProblem("Join the pieces with --pins or with --dovetails, not with both.")
    if asked.dovetail_mm is not None:
        tails = DovetailSizes(asked.dovetail_mm, asked.glue_gap_mm)
        pieces, sentences = dovetail_pieces(made.pieces, planes, face_classes, tails)
        return Pieces(pieces, (*made.notes, *sentences))
    if asked.pin_mm is None:
        return made
    sizes = PinSizes(asked.pin_mm, length_mm=1.25 * asked.pin_mm, glue_gap_mm=asked.glue_gap_mm)
    pieces, sentences = pin_pieces(made.pieces, planes, sizes)
    return Pieces(pieces, (*made.notes, *sentences))


def _corners_mm(box: tuple[float, ...]) -> tuple[np.ndarray, np.ndarray]:
    corners = np.array(box).reshape(2, 3)
    return corners.min(axis=0), corners.max(axis=0)


def _worst(state: State, prepared: PreparedPart, asked: argparse.Namespace) -> WorstPatch:
    measures = measure_pose(prepared, state.face_classes, state.pose, state.settings, tier="quick")
    return worst_patch(
        prepared, state.face_classes, measures.faces, state.pose, state.settings, asked.worst,
        asked.margin_mm,
    )  # fmt: skip


def _as_wanted(piece: Piece, patch: WorstPatch | None) -> Piece:
    """All of a piece; of the box around a patch the body that the patch is on."""
    return piece if patch is None else largest_body(piece)


def _whole_answer(part: ClosedPart) -> dict[str, Any]:
    return {
        "volume_mm3": part.mesh.signed_volume_mm3,
        "faces": part.mesh.face_count,
        "closed": part.closed,
    }


def _chosen(splits: tuple[SplitPlane, ...], number: int) -> CutPlane:
    if not splits:
        raise RequestProblem(
            "Every plane that was tried crosses a face of class A; choose one with --plane."
        )
    if not 1 <= number <= len(splits):
        raise RequestProblem(f"There are {len(splits)} proposals, counted from 1.")
    return splits[number - 1].plane


def _more_answers(patch: WorstPatch | None, splits: tuple[SplitPlane, ...]) -> dict[str, Any]:
    """What only some ways to cut bring."""
    answers: dict[str, Any] = {"worst": _patch_answer(patch)} if patch else {}
    if splits:
        answers["splits"] = [
            {
                "point_mm": list(split.plane.point_mm),
                "normal": list(split.plane.normal),
                "cut_area_mm2": split.cut_area_mm2,
                "share": split.share,
                "why": split.why,
            }
            for split in splits
        ]
    return answers


def _patch_answer(patch: WorstPatch) -> dict[str, Any]:
    return {
        "kind": patch.kind,
        "area_mm2": patch.area_mm2,
        "faces": len(patch.faces),
        "size_mm": plain(patch.high_mm - patch.low_mm),
    }


def _write(
    state: State, piece: Piece, name: str, asked: argparse.Namespace, printing: Printing
) -> dict[str, Any]:
    pose = (pose_on_cut_face(piece) if asked.lay == "cut-face" else None) or state.pose
    laid = state_of_piece(state, piece, f"{state.part.name}, {name.replace('-', ' ')}", pose)
    path = asked.out / f"{name}.3mf"
    write_posed(laid, path)
    vertices = posed_vertices_mm(piece.mesh.vertices_mm, pose)
    kept = piece.origin_face >= 0
    areas = np.where(kept, piece.mesh.face_areas_mm2, 0.0)
    by_class = sum_by_class(areas, laid.face_classes)
    return {
        "file": path.name,
        "volume_mm3": piece.volume_mm3,
        "size_mm": plain(np.ptp(vertices, axis=0)),
        "faces": piece.mesh.face_count,
        "bodies": bodies(piece),
        "closed": edges_join(piece.mesh),
        "class_area_mm2": plain(by_class),
        "cut_area_mm2": piece.cut_area_mm2,
        "sides": list(piece.sides),
        "pose": pose_answer(laid.part, pose),
    } | takes_answer(numbers_of_cut(piece.mesh, laid.face_classes, pose, printing))


def piece_text(answer: dict[str, Any]) -> str:
    """What was cut, in words."""
    pieces = answer["pieces"]
    lines = [f"{answer['file']}: {counted(len(pieces), 'piece')} in {answer['out']}."]
    if "worst" in answer:
        patch = answer["worst"]
        kind = "touch" if patch["kind"] == "touch" else "terraces"
        lines.append(
            f"  The largest patch of {kind} on class A has {patch['area_mm2']:,.1f} mm²;"
            f" the box around it measures {size_text(patch['size_mm'])}."
        )
    for number, split in enumerate(answer.get("splits", ()), start=1):
        lines.append(f"  Split {number}: {split['why']}")
    for piece in pieces:
        several = "" if piece["bodies"] == 1 else f", {counted(piece['bodies'], 'loose body')}"
        several = several.replace("bodys", "bodies")
        lines.append(
            f"  {piece['file']}: {size_text(piece['size_mm'])}, {piece['volume_mm3']:,.1f} mm³,"
            f" class A {piece['class_area_mm2']['A']:,.1f} mm²,"
            f" cut face {piece['cut_area_mm2']:,.1f} mm²{several};"
            f" {takes_words(piece)}"
        )
    return "\n".join([*lines, *(f"  {note}" for note in answer["notes"])])
