"""The ways to mark beside brush and fills, each a button with its options."""

from PySide6.QtCore import QEvent, Qt
from PySide6.QtGui import QAction, QEnterEvent, QFocusEvent
from PySide6.QtWidgets import QCheckBox, QComboBox, QGridLayout, QMenu, QWidget

from viewer.window.choices import Choices, Extent
from viewer.window.mark_ways import MarkWays
from viewer.window.pieces import ActionButton, ChoiceBox, Fields, NumberField, column
from viewer.window.way_options import AS_IT_LIES
from viewer.words import later, say

MOST_HEIGHT_MM = 10_000.0
MIRRORS = (
    (later("Right onto left (x)"), (0, True)),
    (later("Left onto right (x)"), (0, False)),
    (later("Back onto front (y)"), (1, True)),
    (later("Front onto back (y)"), (1, False)),
    (later("Top onto bottom (z)"), (2, True)),
    (later("Bottom onto top (z)"), (2, False)),
)
UPRIGHTS = ((later("as it lies"), AS_IT_LIES), (later("z of the file"), 2),
            (later("y of the file"), 1), (later("x of the file"), 0))  # fmt: skip
TIPS = {
    "low": later("Where the band begins, over the platform and in the present pose."),
    "high": later("Where the band ends, over the platform and in the present pose."),
    "through": later("Also mark what lies within the loop but is hidden behind the part."),
    "lift": later(
        "How far above the plane through its middle the part is looked at from: 0° level, "
        "90° straight from above, less than 0° from below."
    ),
    "count": later("From how many places, evenly on a circle round the part."),
    "distance": later(
        "How far the eye is from the middle of the part: an arm's length for what is held."
    ),
    "upright": later("Which way points up in use: as the part lies now, or an axis of the file."),
    "width": later(
        "By so much marks grow and shrink; spikes and notches narrower than this are smoothed away."
    ),
    "mirror": later(
        "Which half is the model. The plane lies through the middle of the part's box, "
        "across an axis of the file."
    ),
}


class WayButton(ActionButton):
    """Shows what its way would change while the pointer or the keyboard is on it."""

    def __init__(self, action: QAction, ways: MarkWays, text: str = "") -> None:
        super().__init__(action, text)
        self._key, self._ways = action.objectName(), ways

    def enterEvent(self, event: QEnterEvent) -> None:
        """Preview."""
        super().enterEvent(event)
        if self.isEnabled():
            self._ways.preview(self._key)

    def leaveEvent(self, event: QEvent) -> None:
        """No preview."""
        super().leaveEvent(event)
        self._ways.end_preview()

    def focusInEvent(self, event: QFocusEvent) -> None:
        """Preview for those who come by keyboard."""
        super().focusInEvent(event)
        if event.reason() in (Qt.FocusReason.TabFocusReason, Qt.FocusReason.BacktabFocusReason):
            self._ways.preview(self._key)

    def focusOutEvent(self, event: QFocusEvent) -> None:
        """No preview, unless the pointer is here."""
        super().focusOutEvent(event)
        if not self.underMouse():
            self._ways.end_preview()


class WayBox(QWidget):
    """The options and buttons of the way that is chosen; those of all others are put away."""

    def __init__(self, ways: MarkWays, choices: Choices, actions: dict[str, QAction]) -> None:
        super().__init__()
        self._ways, self._options, self._choices = ways, ways.options, choices
        self._actions = actions
        self._make_fields()
        layout = column()
        self.setLayout(layout)
        self._ways_shown = {
            Extent.BAND: self._band(),
            Extent.LASSO: self._lasso(),
            Extent.SEEN_HERE: self._seen_here(),
            Extent.SEEN_IN_USE: self._seen_in_use(),
            Extent.CHANGE: self._change(),
        }
        for shown in self._ways_shown.values():
            layout.addWidget(shown)
        self._follow_menus()
        choices.mark_changed.connect(self._show_choices)
        self._options.changed.connect(self._show_choices)
        self._show_choices()

    def _make_fields(self) -> None:
        def setter(name: str):
            return lambda value: self._options.set(**{name: value})

        high = MOST_HEIGHT_MM
        self.low = NumberField(say("Band from"), "mm", 0, high, 2, 1, setter("band_low_mm"))
        self.high = NumberField(say("Band to"), "mm", 0, high, 2, 1, setter("band_high_mm"))
        self.lift = NumberField(say("Looking from"), "°", -90, 90, 0, 5, setter("ring_lift_deg"))
        self.count = NumberField(
            say("Viewpoints"),
            "",
            1,
            72,
            0,
            1,
            lambda value: self._options.set(ring_count=int(value)),
        )
        self.distance = NumberField(
            say("Distance of the eye"), "mm", 10, high, 0, 50, setter("ring_distance_mm")
        )
        self.width_field = NumberField(say("Width"), "mm", 0.1, 100, 1, 0.5, setter("width_mm"))
        self.through = QCheckBox(say("Through the part"))
        self.through.setToolTip(say(TIPS["through"]))
        self.through.toggled.connect(lambda checked: self._options.set(lasso_through=checked))
        self.upright = _combo(say("Up in use"), UPRIGHTS, TIPS["upright"])
        self.upright.activated.connect(
            lambda: self._options.set(ring_axis=self.upright.currentData())
        )
        self.mirror = _combo(say("Half that is mirrored"), MIRRORS, TIPS["mirror"])
        self.mirror.activated.connect(self._choose_mirror)

    def _button(self, key: str, text: str = "") -> WayButton:
        made = WayButton(self._actions[key], self._ways, text)
        made.setObjectName(key)
        return made

    def _band(self) -> QWidget:
        fields = Fields()
        fields.add(say("From"), self.low, TIPS["low"])
        fields.add(say("To"), self.high, TIPS["high"])
        return _below(fields, self._button("mark_band"))

    def _lasso(self) -> QWidget:
        return _below(self.through)

    def _seen_here(self) -> QWidget:
        return _below(self._button("mark_seen_here"))

    def _seen_in_use(self) -> QWidget:
        seen = Fields()
        seen.add(say("Looking from"), self.lift, TIPS["lift"])
        seen.add(say("Viewpoints"), self.count, TIPS["count"])
        seen.add(say("Distance"), self.distance, TIPS["distance"])
        seen.add(say("Up in use"), self.upright, TIPS["upright"])
        return _below(seen, self._button("mark_seen_in_use"))

    def _change(self) -> QWidget:
        width = Fields()
        width.add(say("Width"), self.width_field, TIPS["width"])
        roll = self._beside(
            ("marks_grow", say("Grow")),
            ("marks_shrink", say("Shrink")),
            ("marks_smooth", say("Smooth")),
        )
        other = self._beside(("marks_mirror", say("Mirror")), ("marks_swap", say("Exchange")))
        return _below(width, roll, self.mirror, other)

    def _beside(self, *places: tuple[str, str]) -> QWidget:
        """Buttons side by side, by the action and the text of each."""
        made = QWidget()
        grid = QGridLayout(made)
        grid.setContentsMargins(0, 0, 0, 0)
        grid.setSpacing(6)
        for place, (key, text) in enumerate(places):
            grid.addWidget(self._button(key, text), 0, place)
        return made

    def _follow_menus(self) -> None:
        """A way that is looked at in a menu is previewed, too."""
        menus = {
            menu
            for key in self._ways.keys
            for menu in self._actions[key].associatedObjects()
            if isinstance(menu, QMenu)
        }
        for menu in menus:
            menu.hovered.connect(self._menu_hovered)
            menu.aboutToHide.connect(self._ways.end_preview)

    def _menu_hovered(self, action: QAction) -> None:
        if action.isEnabled() and action.objectName() in self._ways.keys:
            self._ways.preview(action.objectName())
        else:
            self._ways.end_preview()

    def _choose_mirror(self) -> None:
        axis, from_greater = self.mirror.currentData()
        self._options.set(mirror_axis=axis, mirror_from_greater=from_greater)

    def _show_choices(self) -> None:
        now = self._options.now
        for extent, shown in self._ways_shown.items():
            shown.setVisible(extent is self._choices.extent)
        self.setVisible(self._choices.extent in self._ways_shown)
        for field, value in (
            (self.low, now.band_low_mm),
            (self.high, now.band_high_mm),
            (self.lift, now.ring_lift_deg),
            (self.count, now.ring_count),
            (self.distance, now.ring_distance_mm),
            (self.width_field, now.width_mm),
        ):
            field.show_number(value)
        self.through.setChecked(now.lasso_through)
        self._actions["lasso_through"].setChecked(now.lasso_through)
        uprights = [value for _, value in UPRIGHTS]
        self.upright.setCurrentIndex(uprights.index(now.ring_axis))
        sides = [value for _, value in MIRRORS]
        self.mirror.setCurrentIndex(sides.index((now.mirror_axis, now.mirror_from_greater)))


def _below(*rows: QWidget) -> QWidget:
    """One row below the other."""
    made = QWidget()
    layout = column()
    made.setLayout(layout)
    for row in rows:
        layout.addWidget(row)
    return made


def _combo(name: str, entries: tuple, tip: str) -> QComboBox:
    made = ChoiceBox()
    made.setAccessibleName(name)
    made.setToolTip(say(tip))
    made.setMinimumContentsLength(6)  # a narrow column is wide enough; the list is wider
    made.setSizeAdjustPolicy(QComboBox.SizeAdjustPolicy.AdjustToMinimumContentsLengthWithIcon)
    for text, value in entries:
        made.addItem(say(text), value)
    return made
