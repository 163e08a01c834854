"""Numbers as text: three or four figures that mean something, a sign where it matters."""

from viewer.words import say, written

THIN_SPACE = "\u202f"


def decimals_for(value: float) -> int:
    """How many decimals to show: none from 100 on, then one, then two."""
    size = abs(value)
    return 0 if size >= 99.95 else 1 if size >= 9.995 else 2


def number_text(value: float, decimals: int | None = None) -> str:
    """`value` with a comma every three digits; "0" for nothing at all."""
    if value == 0:
        return "0"
    text = written(value, f",.{decimals_for(value) if decimals is None else decimals}f")
    return text.replace("-", "−")


def error_text(error: float, value: float) -> str:
    """ "± 6" with one or two figures; "" when there is no error to show.

    One too small for the last figure shown is given as a whole one: rather too much than nothing.
    """
    if not error > 0:
        return ""
    decimals = max(decimals_for(value), 0 if error >= 0.95 else 1 if error >= 0.095 else 2)
    rounded = round(error, decimals)
    return "±" + written(max(rounded, 10**-decimals), f",.{decimals}f")


def difference_text(value: float, pinned: float) -> str:
    """The signed difference to the pinned pose, "=" when it rounds to nothing."""
    difference = value - pinned
    decimals = min(decimals_for(value), decimals_for(pinned))
    if round(difference, decimals) == 0:
        return "="
    return written(difference, f"+,.{decimals}f").replace("-", "−")


def volume_text(volume_mm3: float) -> str:
    """A volume in mm³, from 10 cm³ on in cm³."""
    if abs(volume_mm3) >= 10_000:
        return f"{number_text(volume_mm3 / 1000)} cm³"
    return f"{number_text(volume_mm3)} mm³"


def size_text(size_mm: tuple[float, float, float]) -> str:
    """Three lengths as "125 × 38.0 × 45.0 mm"."""
    return " × ".join(number_text(float(x)) for x in size_mm) + " mm"


def count_text(count: int, one: str, many: str | None = None) -> str:
    """ "1 face", "1,200 faces"."""
    return f"{written(count, ',')} {say(one if count == 1 else many or one + 's')}"
