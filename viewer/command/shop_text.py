"""What the shop says about a pose, in words for people at a terminal."""

from typing import Any


def shop_text(answer: dict[str, Any]) -> str:
    """Time, material, money, tool changes, machines that fit, risks and cautions."""
    time, cost, process = answer["time_s"], answer["cost"], answer["process"]
    low, likely, high = (duration_text(time[key]) for key in ("low", "likely", "high"))
    grams = ", ".join(f"{name} {each:,.0f} g" for name, each in answer["material_g"].items())
    purged = f", of it {answer['purge_g']:,.0f} g purged" if answer["purge_g"] >= 0.5 else ""
    lines = [
        f'  on "{process["machine"]}" in {process["pair"]}:',
        f"    time {likely} ({low} to {high}). {answer['time_says']}",
        f"    material {grams}{purged}",
        f"    cost {cost['likely']:,.2f} {cost['currency']}"
        f" ({cost['low']:,.2f} to {cost['high']:,.2f}), {answer['tool_changes']:,} tool changes",
    ]
    if beside := answer.get("beside"):
        lines.append(
            f"    of it {', '.join(beside['pieces']) or 'no piece'} beside the part: "
            f"{duration_text(beside['time_s']['likely'])}, {beside['material_g']:,.0f} g, "
            f"{beside['cost']['likely']:,.2f} {cost['currency']}"
        )
    for name, fit in answer["fits"].items():
        lines.append(f'    {"fits" if fit["fits"] else "does not fit"} "{name}". {fit["why"]}')
    lines += [f"    {sentence}" for sentence in answer["other_machines"]]
    lines += [
        f"    {'Risk' if risk['serious'] else 'Look'} at {risk['from_mm']:.1f} mm: {risk['reason']}"
        for risk in answer["risks"]
    ]
    lines += [f"    Caution: {text}" for text in answer["cautions"]]
    return "\n".join(line.rstrip() for line in lines)


def duration_text(seconds: float) -> str:
    """A time in hours and minutes."""
    hours, minutes = divmod(round(seconds / 60.0), 60)
    return f"{hours} h {minutes:02d} min" if hours else f"{minutes} min"
