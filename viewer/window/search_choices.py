"""What the user chose about the search: the sliders and limits of the job, and this window's own.

Widgets write here and read from here; none of them knows another. What matters and what decides
the spin are part of the job, so undo brings them back; the colouring, the globe and whether the map
is open are not.
"""

from collections.abc import Mapping

from PySide6.QtCore import QObject, Signal

from viewer.document.document import Changed, Document
from viewer.geometry.aims import weigh_touch
from viewer.geometry.spin_wish import Side, SpinRule, SpinWish
from viewer.geometry.what_matters import WhatMatters
from viewer.shop.touch_weight import TouchWorth
from viewer.window.map_layers import SCORE
from viewer.words import say


class SearchChoices(QObject):
    """Positions of the sliders, hard limits, what decides the spin, and colouring of the map.

    Every setter tells of a change exactly once.
    """

    aims_changed = Signal()
    colouring_changed = Signal(str)
    open_changed = Signal()
    spin_changed = Signal()
    globe_changed = Signal()

    def __init__(self, document: Document, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._document = document
        self._stop_listening = document.listen(self._document_changed)
        self.colouring = SCORE.key
        self.open = False
        self.globe = False
        self.touch: TouchWorth | None = None

    def close(self) -> None:
        """Stop listening to the document."""
        self._stop_listening()

    def _document_changed(self, what: Changed) -> None:
        if what & Changed.MATTERS:
            self.aims_changed.emit()
        if what & Changed.SPIN:
            self.spin_changed.emit()

    # --- what matters
    @property
    def matters(self) -> WhatMatters:
        """Of the job."""
        return self._document.state.what_matters

    @property
    def weights(self) -> dict[str, float]:
        """Positions of the sliders, 0 to 100, by the keys of AIM_KEYS."""
        return self.matters.weights

    @property
    def limits(self) -> tuple[str, ...]:
        """Keys of the hard limits in force."""
        return self.matters.limits

    @property
    def preset(self) -> str:
        """Key of the preset whose sliders these are, "" for none."""
        return self.matters.preset

    @property
    def counted(self) -> Mapping[str, float]:
        """The sliders as they count: those about marks of supports by the pair of materials."""
        return self.weights if self.touch is None else weigh_touch(self.weights, self.touch.weight)

    def set_touch(self, touch: TouchWorth | None) -> None:
        """How much worse a touched face is than a clean one, by the pair that is chosen."""
        if touch != self.touch:
            self.touch = touch
            self.aims_changed.emit()

    def set_weights(self, weights: Mapping[str, float]) -> None:
        """Other positions of the sliders, 0 to 100, by the keys of AIM_KEYS."""
        matters = self.matters.with_weights(weights)
        self._document.set_what_matters(matters, say("Change what matters"))

    def set_weight(self, key: str, weight: float) -> None:
        """Move one slider."""
        self.set_weights({key: weight})

    def begin_drag(self) -> None:
        """What a slider is moved from now on is one step."""
        self._document.begin_gesture(say("Change what matters"))

    def end_drag(self) -> None:
        """The slider was let go."""
        self._document.end_gesture()

    def set_limit(self, key: str, on: bool) -> None:
        """Put one hard limit in force or out of it."""
        matters = self.matters.with_limit(key, on)
        self._document.set_what_matters(matters, say("Change the limits"))

    # --- what decides the spin
    @property
    def spin_wish(self) -> SpinWish:
        """Of the job: what decides the spin when going to a direction."""
        return self._document.state.spin_wish

    @property
    def keep_spin(self) -> bool:
        """Whether the spin stays as it is when going to a direction."""
        return self.spin_wish.rule is SpinRule.KEEP

    def set_spin_rule(self, rule: SpinRule, side: Side | None = None) -> None:
        """Let another rule decide; side : in part coordinates, for the rule that goes by one."""
        self._document.set_spin_wish(SpinWish(rule, side), say("Change what decides the spin"))

    def set_keep_spin(self, on: bool) -> None:
        """Leave the spin as it is when going to a direction, or choose the least rectangle."""
        if on != self.keep_spin:
            self.set_spin_rule(SpinRule.KEEP if on else SpinRule.RECTANGLE)

    # --- of this window
    def set_colouring(self, key: str) -> None:
        """Colour the map by the score or by a measure."""
        if key != self.colouring:
            self.colouring = key
            self.colouring_changed.emit(key)

    def set_open(self, on: bool) -> None:
        """Show or hide the direction map."""
        if on != self.open:
            self.open = on
            self.open_changed.emit()

    def set_globe(self, on: bool) -> None:
        """Show the map round the part in the scene too, or not."""
        if on != self.globe:
            self.globe = on
            self.globe_changed.emit()
