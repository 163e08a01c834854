"""Tool changes from the real sequence of layers.

Each layer uses some of the materials. In alternating order a layer starts with the material that
is loaded, if it uses it, and goes on in the order of the list; in fixed order each layer takes its
materials in the order of the list. A change is counted whenever the next material is not loaded.
"""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from viewer.geometry.mesh import frozen
from viewer.shop.processes import Order


@dataclass(frozen=True, eq=False)
class ToolChanges:
    """The changes of a print.

    by_layer : (layers,) int32, changes made in a layer or on the way to it
    into : (tools,) int64, how often each tool takes over
    into_by_layer : (layers, tools) int32
    """

    by_layer: np.ndarray
    into: np.ndarray
    into_by_layer: np.ndarray

    @property
    def count(self) -> int:
        """All changes."""
        return int(self.by_layer.sum())


def count_tool_changes(
    uses: np.ndarray, order: Order = "alternating", sequence: Sequence[int] | None = None
) -> ToolChanges:
    """Changes of a print whose layer i uses the tools j with uses[i, j].

    uses : (layers, tools) bool
    sequence : tools in the order in which a layer takes them, all of them once; the first layer
        starts with the first of these that it uses
    """
    uses = np.asarray(uses, bool)
    tools = uses.shape[1]
    sequence = tuple(range(tools)) if sequence is None else tuple(sequence)
    masks = uses @ (1 << np.arange(tools))
    # Layers alike come in runs, and few kinds of step exist: each is worked out once.
    known: dict[tuple[int, int], tuple[int, tuple[int, ...]]] = {}
    steps: list[tuple[int, ...]] = []
    number: dict[tuple[int, ...], int] = {}
    taken = np.empty(len(masks), np.int64)
    loaded = -1
    for layer, mask in enumerate(masks.tolist()):
        step = known.get((loaded, mask))
        if step is None:
            end, into = _layer_step(loaded, mask, order, sequence)
            if into not in number:
                number[into] = len(steps)
                steps.append(into)
            step = known[loaded, mask] = (end, number[into])
        loaded, taken[layer] = step
    each = np.array([[into.count(tool) for tool in range(tools)] for into in steps], np.int32)
    into_by_layer = each.reshape(-1, tools)[taken]
    return ToolChanges(
        frozen(into_by_layer.sum(axis=1, dtype=np.int32)),
        frozen(into_by_layer.sum(axis=0, dtype=np.int64)),
        frozen(into_by_layer),
    )


def _layer_step(
    loaded: int, mask: int, order: Order, sequence: tuple[int, ...]
) -> tuple[int, tuple[int, ...]]:
    """The tool loaded after a layer, and the tools that took over in it; −1: none loaded yet."""
    used = [tool for tool in sequence if mask >> tool & 1]
    if order == "alternating" and loaded in used:
        used = [loaded, *(tool for tool in used if tool != loaded)]
    into = []
    for tool in used:
        if tool != loaded and loaded >= 0:
            into.append(tool)
        loaded = tool
    return loaded, tuple(into)
