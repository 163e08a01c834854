"""What layers of different heights would do for a measured pose, as a what-if."""

import argparse
from typing import Any

from viewer.command.answers import plain
from viewer.document.state import State
from viewer.geometry.adaptive_layers import LayerStack, adapt_layers
from viewer.geometry.prepared_part import PreparedPart


def add_cusp(parser: argparse.ArgumentParser) -> None:
    """The option that asks for the what-if."""
    parser.add_argument(
        "--cusp",
        dest="cusp_mm",
        type=float,
        metavar="MM",
        help="also plan layers of different heights with cusps of at most so much on class A",
    )


def layers_answer(
    state: State, prepared: PreparedPart, asked: argparse.Namespace
) -> dict[str, Any]:
    """Nothing, or the layers that keep the cusp asked for; raises RequestProblem."""
    if asked.cusp_mm is None:
        return {}
    found = adapt_layers(prepared, state.face_classes, state.pose.up, state.settings, asked.cusp_mm)
    return {
        "adaptive_layers": {
            "cusp_limit_mm": found.cusp_limit_mm,
            "more_layers": found.more_layers,
            "unmet_mm": found.unmet_mm,
            "even": _stack(found.even),
            "by_rule": _stack(found.by_rule),
            "optimal": _stack(found.optimal),
            "table": [plain(run) for run in found.optimal.table()],
        }
    }


def _stack(stack: LayerStack) -> dict[str, Any]:
    return {
        "layers": stack.count,
        "largest_cusp_mm": stack.largest_cusp_mm,
        "terrace_visible_area_mm2": plain(stack.visible_area_mm2),
    }


def layers_text(answer: dict[str, Any]) -> str:
    """The layers from the platform up, and what they change."""
    found = answer["adaptive_layers"]
    even, best = found["even"], found["optimal"]
    lines = [
        f"  layers of different heights, cusps on class A up to {found['cusp_limit_mm']:g} mm:"
        f" {best['layers']:,} instead of {even['layers']:,} layers;"
        f" terraces wider than a road on class A"
        f" {best['terrace_visible_area_mm2']['A']:,.0f} instead of"
        f" {even['terrace_visible_area_mm2']['A']:,.0f} mm²"
    ]
    if found["unmet_mm"] > 0:
        lines.append(
            f"    over {found['unmet_mm']:.2f} mm of height even the thinnest layer leaves more"
        )
    lines += [
        f"    {run['from_mm']:.2f} to {run['to_mm']:.2f} mm: {run['layers']:,} of"
        f" {run['layer_mm']:.2f} mm"
        for run in found["table"]
    ]
    return "\n".join(lines)
