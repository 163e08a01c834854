"""What the colours of the part show."""

from enum import Enum


class Lens(Enum):
    """A way to look at the part; the value is its name in commands and settings."""

    CLASSES = "classes"
    OVERHANG = "overhang"
    TOUCH = "touch"
    TERRACES = "terraces"
    FAULTS = "faults"
    DEVIATION = "deviation"
    PRINTED = "printed"
    DIFFERENCE = "difference"

    @property
    def title(self) -> str:
        """Its name for people."""
        return "Printed look" if self is Lens.PRINTED else self.value.capitalize()
