"""What the search found in words: numbers of a direction, how sure it is, what is in the way."""

from viewer.geometry.direction_table import DirectionTable
from viewer.geometry.hard_limits import HARD_LIMITS
from viewer.geometry.ranking import Ranking
from viewer.geometry.sensitivity import LIMIT_DEG, TILT_DEG, Sensitivity
from viewer.geometry.touch_bound import TouchBound
from viewer.window.map_legend import CUT_WORDS
from viewer.window.quantities import count_text, number_text, volume_text
from viewer.window.shop_rows import duration_text
from viewer.words import later, say, written


def direction_words(ranking: Ranking, row: int) -> str:
    """The numbers of one direction of the table, and which limits cut it."""
    table, score = ranking.table, float(ranking.score[row])
    values = table.row(row)
    words = [say("score {score:.0f}", score=score)] if score == score else []  # NaN: not known yet
    classes = [
        (letter, name)
        for letter, name, whole in (
            ("a_", "A", table.area_mm2.A), ("b_", "B", table.area_mm2.B),
        )
        if whole > 0
    ] or [("", "")]  # fmt: skip
    for letter, name in classes:
        touch, terrace = f"touch_{letter}mm2", f"terrace_{letter}mm2"
        if touch in values:
            words.append(_touch_words(name, number_text(values[touch])))
        if terrace in values:
            words.append(_terrace_words(name, number_text(values[terrace])))
    if "support_volume_mm3" in values:
        volume = volume_text(values["support_volume_mm3"])
        words.append(say("support {volume}", volume=volume))
    if "height_mm" in values:
        words.append(say("height {height} mm", height=number_text(values["height_mm"])))
    if "time_min" in values:
        words.append(say("about {time}", time=duration_text(60.0 * values["time_min"])))
    cut = [
        say(CUT_WORDS[limit.key])
        for limit in HARD_LIMITS
        if limit.key in ranking.cut.beyond and ranking.cut.beyond[limit.key][row]
    ]
    if cut:
        words.append(say("cut out: {limits}", limits=", ".join(cut)))
    text = " · ".join(words)
    return text[:1].upper() + text[1:]


def _touch_words(name: str, area: str) -> str:
    if not name:
        return say("touch {area} mm²", area=area)
    return say("touch on {name} {area} mm²", name=name, area=area)


def _terrace_words(name: str, area: str) -> str:
    if not name:
        return say("wide terraces {area} mm²", area=area)
    return say("wide terraces on {name} {area} mm²", name=name, area=area)


def sure_words(found: Sensitivity | None, table: DirectionTable) -> str:
    """How sure a pose is: what a tilt and another support limit would make of it."""
    if found is None:
        return say("How sure: not worked out yet.")
    key, name = _watched(table)
    here = found.here[key]
    most = max(found.tilted[key].high, found.limits[key].high)
    values = {
        "tilt": written(TILT_DEG, "g"),
        "limit": written(LIMIT_DEG, "g"),
        "here": number_text(here),
        "most": number_text(most),
        "name": say(name),
    }
    if found.knife_edge:
        return say(
            "On a knife’s edge: up to {most} mm² of touch on {name} with {tilt}° of tilt or "
            "{limit}° of support limit, not {here} mm².",
            **values,
        )
    return say(
        "Sure: at most {most} mm² of touch on {name} with {tilt}° of tilt or {limit}° of support "
        "limit.",
        **values,
    )


def _watched(table: DirectionTable) -> tuple[str, str]:
    if table.area_mm2.A > 0:
        return "touch_a_mm2", later("class A")
    marked_b = table.area_mm2.B > 0
    return ("touch_b_mm2", later("class B")) if marked_b else ("touch_mm2", later("the part"))


def bound_words(bound: TouchBound | None, table: DirectionTable) -> str:
    """The least touch on class A found, beside what is proved to be the least there can be."""
    if not table.area_mm2.A:
        return say("Nothing is marked as class A, so the part counts as a whole.")
    if bound is None:
        return ""
    if bound.found_mm2 <= 0:
        return say("Some directions need no support on class A at all.")
    return say(
        "Touch on class A: the least found is {found} mm²; no direction at all has less than "
        "{least} mm².",
        found=number_text(bound.found_mm2),
        least=number_text(bound.least_mm2),
    )


def limits_words(ranking: Ranking) -> str:
    """Which limits are in the way where nothing is left; else how many directions are left."""
    if ranking.in_the_way:
        blocked = [say(each.sentence) for each in ranking.in_the_way]
        left = say("Below is what comes nearest.")
        return " ".join([say("Nothing is within every limit."), *blocked, left])
    if not ranking.table.complete.any():
        return say("Searching …")
    left = int(ranking.allowed.sum())
    return say(
        "{left} of {all} are within the limits.",
        left=written(left, ","),
        all=count_text(int(ranking.table.complete.sum()), "direction"),
    )
