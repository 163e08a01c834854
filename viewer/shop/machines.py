"""The user's machines: what they reach, how fast they move, what a change of material costs.

x and y are 0 at the centre of the platform, z is up from it (ISO/ASTM 52921).
"""

import msgspec

from viewer.shop.sound_values import all_finite, name_check, refuse, sources_check
from viewer.words import say

Place = tuple[float, float]
Size = tuple[float, float, float]


class Nozzle(msgspec.Struct, frozen=True, forbid_unknown_fields=True, kw_only=True):
    """One nozzle and the box it reaches, which for two nozzles is rarely the same.

    reach_low_mm, reach_high_mm : corners of that box
    flow_limit_mm3_s : most that it melts in a second
    """

    name: str
    diameter_mm: float = 0.4
    flow_limit_mm3_s: float = 10.0
    reach_low_mm: Size
    reach_high_mm: Size

    def __post_init__(self) -> None:
        low, high = self.reach_low_mm, self.reach_high_mm
        refuse(
            say('Nozzle "{name}"', name=self.name),
            (
                name_check(self.name),
                (
                    0.05 <= self.diameter_mm <= 5,
                    say("its diameter must lie between 0.05 and 5 mm."),
                ),
                (
                    0.05 <= self.flow_limit_mm3_s <= 2000,
                    say("its flow limit must lie between 0.05 and 2000 mm³/s."),
                ),
                (
                    all_finite(*low, *high) and all(a < b for a, b in zip(low, high, strict=True)),
                    say(
                        "the upper corner of its reach must lie above the lower one in x, y and z."
                    ),
                ),
            ),
        )


class ForbiddenArea(msgspec.Struct, frozen=True, forbid_unknown_fields=True, kw_only=True):
    """A rectangle of the platform that must stay free, such as a corner with a clip.

    to_mm : height up to which it must stay free; 0 for any height
    """

    name: str = "corner"
    low_mm: Place
    high_mm: Place
    to_mm: float = 0.0

    def __post_init__(self) -> None:
        refuse(
            say('Forbidden area "{name}"', name=self.name),
            (
                (
                    all_finite(*self.low_mm, *self.high_mm)
                    and self.low_mm[0] < self.high_mm[0]
                    and self.low_mm[1] < self.high_mm[1],
                    say("its upper corner must lie beyond the lower one in x and y."),
                ),
                (0 <= self.to_mm <= 10_000, say("its height must lie between 0 and 10000 mm.")),
            ),
        )


class Machine(msgspec.Struct, frozen=True, forbid_unknown_fields=True, kw_only=True):
    """One machine of the user's.

    build_volume_mm : width, depth, height
    shared_nozzle : all materials go through one nozzle, which is purged at each change
    materials : how many materials are loaded at once
    travel_mm_s, acceleration_mm_s2 : of moves without printing; acceleration of all moves
    tool_change_s : time of a change without what is purged
    purge_mm3 : pushed through a shared nozzle at each change
    prime_mm3 : pushed out when a nozzle of its own takes over
    purge_body_mm : foot (x, y) of the body printed beside the part out of what is purged; 0, 0
        where that goes elsewhere. It grows longer in y where the foot does not hold it
    layer_low_mm, layer_high_mm : range of layer heights
    start_s : heating, levelling and cooling down; layer_change_s : moving up, at each layer
    hourly_rate : money for an hour, in `currency`
    sources : where each value comes from, by field; of a nozzle as "nozzles.field"
    """

    name: str
    build_volume_mm: Size
    nozzles: tuple[Nozzle, ...]
    shared_nozzle: bool = False
    materials: int = 1
    travel_mm_s: float = 150.0
    acceleration_mm_s2: float = 1000.0
    tool_change_s: float = 5.0
    purge_mm3: float = 0.0
    prime_mm3: float = 0.0
    purge_body_mm: Place = (0.0, 0.0)
    layer_low_mm: float = 0.08
    layer_high_mm: float = 0.3
    start_s: float = 300.0
    layer_change_s: float = 1.0
    hourly_rate: float = 0.0
    currency: str = "EUR"
    forbidden: tuple[ForbiddenArea, ...] = ()
    notes: str = ""
    sources: dict[str, str] = {}

    def __post_init__(self) -> None:
        refuse(
            say('Machine "{name}"', name=self.name), (*_volume_checks(self), *_working_checks(self))
        )

    @property
    def low_mm(self) -> Size:
        """Lower corner of the build volume."""
        return -self.build_volume_mm[0] / 2, -self.build_volume_mm[1] / 2, 0.0

    @property
    def high_mm(self) -> Size:
        """Upper corner of the build volume."""
        return self.build_volume_mm[0] / 2, self.build_volume_mm[1] / 2, self.build_volume_mm[2]

    @property
    def change_mm3(self) -> float:
        """What is pushed out at each change."""
        return self.purge_mm3 if self.shared_nozzle else self.prime_mm3

    @property
    def has_purge_body(self) -> bool:
        """Whether a body is printed beside the part out of what is purged."""
        return self.change_mm3 > 0 and min(self.purge_body_mm) > 0

    def source(self, field: str) -> str:
        """Where a value comes from, "" where that is not said."""
        return self.sources.get(field, "")


def nozzle_for(machine: Machine, material: int) -> Nozzle:
    """The nozzle that prints the material loaded at place `material`, counted from 0."""
    return machine.nozzles[0 if machine.shared_nozzle else material]


def _volume_checks(machine: Machine) -> tuple[tuple[bool, str], ...]:
    size, nozzles = machine.build_volume_mm, machine.nozzles
    return (
        name_check(machine.name),
        (
            all(1 <= length <= 10_000 for length in size),
            say("width, depth and height of the build volume must lie between 1 and 10000 mm."),
        ),
        (len(nozzles) > 0, say("it needs at least one nozzle.")),
        (
            len({nozzle.name for nozzle in nozzles}) == len(nozzles),
            say("two nozzles have the same name; give each its own."),
        ),
        (
            not machine.shared_nozzle or len(nozzles) == 1,
            say("a shared nozzle is the only one; leave the other nozzles out."),
        ),
        (
            1 <= machine.materials <= 64
            and (machine.shared_nozzle or machine.materials <= len(nozzles)),
            say("without a shared nozzle it takes as many materials as it has nozzles."),
        ),
        (
            0.01 <= machine.layer_low_mm <= machine.layer_high_mm <= 5,
            say("the range of layer heights must rise, from at least 0.01 to at most 5 mm."),
        ),
    )


def _working_checks(machine: Machine) -> tuple[tuple[bool, str], ...]:
    fields = [*machine.__struct_fields__, *(f"nozzles.{f}" for f in Nozzle.__struct_fields__)]
    return (
        (
            1 <= machine.travel_mm_s <= 5000,
            say("its travel speed must lie between 1 and 5000 mm/s."),
        ),
        (
            1 <= machine.acceleration_mm_s2 <= 1e6,
            say("its acceleration must lie between 1 and 1000000 mm/s²."),
        ),
        (
            0 <= machine.tool_change_s <= 3600,
            say("a change of material takes between 0 and 3600 seconds."),
        ),
        (
            0 <= machine.prime_mm3 <= machine.purge_mm3 <= 10_000
            or (machine.purge_mm3 == 0 and 0 <= machine.prime_mm3 <= 10_000),
            say(
                "purging takes 0 to 10000 mm³, and priming a nozzle of its own no more than "
                "purging."
            ),
        ),
        (
            all(0 <= side <= 1000 for side in machine.purge_body_mm),
            say("the sides of the body of purged material must lie between 0 and 1000 mm."),
        ),
        (0 <= machine.start_s <= 86_400, say("its start takes between 0 and 86400 seconds.")),
        (0 <= machine.layer_change_s <= 600, say("a new layer takes between 0 and 600 seconds.")),
        (0 <= machine.hourly_rate <= 1e6, say("its hourly rate must lie between 0 and 1000000.")),
        (
            0 < len(machine.currency) <= 8 and machine.currency.isprintable(),
            say('name the currency in up to 8 letters, such as "EUR".'),
        ),
        sources_check(machine.sources, fields, '"nozzles.diameter_mm"'),
    )
