"""A machine's volumes as boxes to draw: what it builds in, what each nozzle reaches, what is taken.

x and y are 0 at the centre of the platform. A part that `Fit.place_mm` places is moved there.
"""

from typing import Literal, NamedTuple

from viewer.shop.fit import Fit
from viewer.shop.machines import Machine, Size

Role = Literal["build volume", "reach", "forbidden", "purged"]


class Volume(NamedTuple):
    """One upright box: its lower and upper corner, what it is, and what it is called."""

    role: Role
    name: str
    low_mm: Size
    high_mm: Size


def machine_volumes(
    machine: Machine,
    fit: Fit | None = None,
    purge_body_mm: tuple[float, float, float] = (0.0, 0.0, 0.0),
) -> tuple[Volume, ...]:
    """Build volume, reach of each nozzle, forbidden areas and, where it stands, what is purged.

    fit, purge_body_mm : of the job, which tell where the purged body stands and how high it gets
    """
    top = machine.build_volume_mm[2]
    found = [Volume("build volume", machine.name, machine.low_mm, machine.high_mm)]
    found += [
        Volume("reach", nozzle.name, nozzle.reach_low_mm, nozzle.reach_high_mm)
        for nozzle in machine.nozzles
    ]
    found += [
        Volume("forbidden", area.name, (*area.low_mm, 0.0), (*area.high_mm, area.to_mm or top))
        for area in machine.forbidden
    ]
    if fit is not None and fit.purge_body is not None:
        body = fit.purge_body
        found.append(
            Volume("purged", "purged material", (*body.low_mm, 0.0),
                   (*body.high_mm, purge_body_mm[2]))
        )  # fmt: skip
    return tuple(found)


def volume_of_part(machine: Machine, fit: Fit | None = None) -> Volume:
    """What the part has to lie in: the build volume as far as the nozzle of its model reaches."""
    return volume_of_nozzle(machine, 0 if fit is None else fit.nozzles[0])


def volume_of_nozzle(machine: Machine, place: int) -> Volume:
    """What lies in the build volume and in the reach of the nozzle at that place."""
    nozzle = machine.nozzles[place]
    low = tuple(max(a, b) for a, b in zip(machine.low_mm, nozzle.reach_low_mm, strict=True))
    high = tuple(min(a, b) for a, b in zip(machine.high_mm, nozzle.reach_high_mm, strict=True))
    return Volume("reach", nozzle.name, low, high)


def standing_place_mm(machine: Machine, fit: Fit | None) -> tuple[float, float]:
    """Where the middle of the part's box stands on the platform (x, y).

    Where it does not fit as it is laid: in the middle, so that it sticks out on all sides alike.
    """
    if fit is not None and fit.fits and not fit.why:
        return fit.place_mm
    volume = volume_of_part(machine, fit)
    x, y, _ = (0.5 * (a + b) for a, b in zip(volume.low_mm, volume.high_mm, strict=True))
    return x, y
