"""What matters: presets, a slider for each aim in plain words, and the hard limits."""

from functools import partial

from PySide6.QtCore import QSignalBlocker, Qt
from PySide6.QtWidgets import (
    QCheckBox,
    QGridLayout,
    QLabel,
    QPushButton,
    QWidget,
)

from viewer.geometry.aims import AIMS, PRESETS, TOUCH_KEYS
from viewer.geometry.hard_limits import HARD_LIMITS
from viewer.shop.touch_weight import worth_sentences
from viewer.window.aim_slider import AimSlider
from viewer.window.pieces import column, text_label
from viewer.window.search_choices import SearchChoices
from viewer.words import say, written

TOUCH_LIMIT = "no-touch-on-a"


class AimsBox(QWidget):
    """Writes the choices and shows them; nothing weighs in that is not a slider here."""

    def __init__(self, choices: SearchChoices) -> None:
        super().__init__()
        self._choices = choices
        self.setLayout(column(margins=(2, 6, 8, 6), gap=6))
        self.presets: dict[str, QPushButton] = {}
        self.sliders: dict[str, AimSlider] = {}
        self._numbers: dict[str, QLabel] = {}
        self.limits: dict[str, QCheckBox] = {}
        self._make_presets()
        self._make_sliders()
        self.touch = text_label(quiet=True)
        self.touch.setToolTip(say("The pair is chosen in the shop; its form has this weight (F4)."))
        self.layout().addWidget(self.touch)
        self._make_limits()
        self.layout().addStretch(1)
        choices.aims_changed.connect(self._show)
        self._show()

    def _make_presets(self) -> None:
        grid = QGridLayout()
        grid.setSpacing(6)
        for place, preset in enumerate(PRESETS):
            made = QPushButton(say(preset.name))
            made.setCheckable(True)
            made.setToolTip(say("Put every slider where this aim has it."))
            made.clicked.connect(partial(self._choose, preset.weights))
            self.presets[preset.key] = made
            grid.addWidget(made, place // 2, place % 2)
        self.layout().addLayout(grid)

    def _choose(self, weights: dict, *_: object) -> None:
        self._choices.set_weights(weights)
        self._show()  # a preset clicked again stays chosen

    def _make_sliders(self) -> None:
        grid = QGridLayout()
        grid.setHorizontalSpacing(8)
        grid.setVerticalSpacing(2)
        grid.setColumnStretch(1, 1)
        for row, aim in enumerate(AIMS):
            slider = AimSlider()
            slider.setAccessibleName(say(aim.name))
            slider.setToolTip(
                say("0: does not matter; 100: matters most. The order changes at once.")
            )
            slider.began.connect(self._choices.begin_drag)
            slider.ended.connect(self._choices.end_drag)
            slider.valueChanged.connect(partial(self._choices.set_weight, aim.key))
            label = QLabel(say(aim.name))
            label.setBuddy(slider)
            number = QLabel()
            number.setMinimumWidth(26)
            number.setAlignment(Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter)
            for place, widget in enumerate((label, slider, number)):
                grid.addWidget(widget, row, place)
            self.sliders[aim.key], self._numbers[aim.key] = slider, number
        self.layout().addLayout(grid)

    def _make_limits(self) -> None:
        self.layout().addWidget(text_label(say("Must"), heading=True))
        grid = QGridLayout()
        grid.setVerticalSpacing(2)
        for place, limit in enumerate(HARD_LIMITS):
            name = say(limit.name)
            box = QCheckBox(name[:1].upper() + name[1:])
            box.setToolTip(
                say("Directions beyond this limit are cut out; the map hatches them.")
            )  # fmt: skip
            box.toggled.connect(partial(self._choices.set_limit, limit.key))
            self.limits[limit.key] = box
            grid.addWidget(box, place, 0)
        self.layout().addLayout(grid)

    def _show(self) -> None:
        choices = self._choices
        for key, slider in self.sliders.items():
            blocker = QSignalBlocker(slider)
            slider.setValue(round(choices.weights[key]))
            blocker.unblock()
            self._numbers[key].setText(written(round(choices.weights[key])))
        for key, box in self.limits.items():
            blocker = QSignalBlocker(box)
            box.setChecked(key in choices.limits)
            blocker.unblock()
        self._show_touch()
        for key, preset in self.presets.items():
            preset.setChecked(key == choices.preset)

    def _show_touch(self) -> None:
        """Why marks of supports count as they do, in words and at their sliders."""
        worth, counted = self._choices.touch, self._choices.counted
        told = () if worth is None else worth_sentences(worth, TOUCH_LIMIT in self._choices.limits)
        self.touch.setText("\n".join(told))
        self.touch.setVisible(bool(told))
        usual = say("0: does not matter; 100: matters most. The order changes at once.")
        for key in TOUCH_KEYS:
            tip = say("With the chosen pair it counts as {weight:.0f}.", weight=counted[key])
            self.sliders[key].setToolTip(f"{usual}\n{tip}" if told else usual)
