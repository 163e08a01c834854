"""Layers of different heights as a what-if: limits, how many layers, what terraces stay visible."""

from PySide6.QtCore import Signal
from PySide6.QtGui import QAction, QHideEvent, QShowEvent
from PySide6.QtWidgets import QWidget

from viewer.geometry.adaptive_layers import AdaptiveLayers, LayerStack
from viewer.live.live_layers import LayersAsked
from viewer.window.pieces import ActionButton, FieldRow, NumberField, column, text_label
from viewer.window.quantities import count_text, difference_text, number_text
from viewer.words import say, written


class LayersBox(QWidget):
    """asked : other limits; looked_at : whether the box is seen now"""

    asked = Signal(object)
    looked_at = Signal(object)

    def __init__(self, actions: dict[str, QAction], asked: LayersAsked) -> None:
        super().__init__()
        self.setLayout(column(margins=(2, 8, 8, 6), gap=8))
        self.layout().addWidget(
            text_label(
                say("What if each layer were as thick as class A lets it be? For this pose.")
            )
        )
        row = FieldRow()
        self.cusp = self._field(say("Cusp limit"), asked.cusp_limit_mm, 0.005)
        self.thinnest = self._field(say("Thinnest layer"), asked.thinnest_mm, 0.02)
        self.thickest = self._field(say("Thickest layer"), asked.thickest_mm, 0.02)
        for name, field, tip in (
            (say("Cusp limit"), self.cusp, say("How far steps may stand off class A.")),
            (say("Thinnest"), self.thinnest, say("The thinnest layer the machine lays well.")),
            (say("Thickest"), self.thickest, say("The thickest layer the nozzle can lay.")),
        ):
            row.add(name, field, tip)
        self.layout().addWidget(row)
        self.words = text_label()
        self.layout().addWidget(self.words)
        self.layout().addWidget(ActionButton(actions["export_layers"], say("Write as a table …")))
        self.layout().addStretch(1)
        self.show_layers(None)

    def _field(self, name: str, value_mm: float, step_mm: float) -> NumberField:
        field = NumberField(name, "mm", 0.001, 5.0, 3, step_mm, self._changed)
        field.show_number(value_mm)
        return field

    def _changed(self, *_: object) -> None:
        fields = (self.cusp, self.thinnest, self.thickest)
        self.asked.emit(LayersAsked(*(round(field.value(), 3) for field in fields)))

    def show_layers(self, found: AdaptiveLayers | None) -> None:
        """What it would be; None while that is worked out."""
        self.words.setText(say("Being worked out …") if found is None else layers_words(found))

    def refuse(self, sentence: str) -> None:
        """Why it cannot be."""
        self.words.setText(sentence)

    def showEvent(self, event: QShowEvent) -> None:
        """Somebody looks."""
        super().showEvent(event)
        self.looked_at.emit(True)

    def hideEvent(self, event: QHideEvent) -> None:
        """Nobody looks."""
        super().hideEvent(event)
        self.looked_at.emit(False)


def layers_words(found: AdaptiveLayers) -> str:
    """Count, change and visible terraces, a sentence a line."""
    even, best = found.even, found.optimal
    change = difference_text(best.count, even.count)
    lines = [
        say(
            "Even layers of {layer} mm: {layers}; {terraces}.",
            layer=written(float(even.layers_mm[0]), "g"),
            layers=count_text(even.count, "layer"),
            terraces=_terraces(even),
        ),
        say(
            "Adaptive, {thin} to {thick} mm: {layers} ({change}); {terraces}.",
            thin=written(round(float(best.layers_mm.min()), 3), "g"),
            thick=written(round(float(best.layers_mm.max()), 3), "g"),
            layers=count_text(best.count, "layer"),
            change=change,
            terraces=_terraces(best),
        ),
        say(
            "Always the thickest allowed, from below: {layers}.",
            layers=count_text(found.by_rule.count, "layer"),
        ),
        say(
            "Largest cusp on class A: {before} mm even, {after} mm adaptive.",
            before=number_text(even.largest_cusp_mm, 3),
            after=number_text(best.largest_cusp_mm, 3),
        ),
    ]
    if found.unmet_mm > 0:
        lines.append(
            say(
                "Over {height} mm of height even the thinnest layer leaves larger cusps.",
                height=number_text(found.unmet_mm),
            )
        )
    return "\n".join(lines)


def _terraces(stack: LayerStack) -> str:
    area = stack.visible_area_mm2
    if area.A or area.B:
        return say(
            "wide terraces on A {a} mm², on B {b} mm²", a=number_text(area.A), b=number_text(area.B)
        )
    return say("wide terraces {area} mm²", area=number_text(area.total))
