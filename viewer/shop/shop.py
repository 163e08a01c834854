"""The shop: the user's machines, materials, pairs and processes, found by name."""

from dataclasses import dataclass
from difflib import get_close_matches
from functools import cache
from pathlib import Path
from typing import NamedTuple, TypeVar

from viewer.errors import RequestProblem
from viewer.resource_files import resource_file
from viewer.shop.machines import Machine
from viewer.shop.materials import Material
from viewer.shop.pairs import Pair
from viewer.shop.processes import Process
from viewer.shop.toml_text import KINDS, read_toml
from viewer.words import later, say

Named = TypeVar("Named", Machine, Material, Pair, Process)


class PairMaterials(NamedTuple):
    """The three materials of a pair; without supports or contact layers the later repeat."""

    model: Material
    support_body: Material
    contact: Material


@dataclass(frozen=True)
class Shop:
    """Everything the user has; the user's own things come first, then the examples.

    problems : sentences about files that were left aside
    """

    machines: tuple[Machine, ...] = ()
    materials: tuple[Material, ...] = ()
    pairs: tuple[Pair, ...] = ()
    processes: tuple[Process, ...] = ()
    problems: tuple[str, ...] = ()

    def machine(self, name: str) -> Machine:
        """The machine of that name; raises RequestProblem, which names the nearest."""
        return _find(self.machines, name, later("machine"))

    def material(self, name: str) -> Material:
        """The material of that name; raises RequestProblem, which names the nearest."""
        return _find(self.materials, name, later("material"))

    def pair(self, name: str) -> Pair:
        """The pair of that name; raises RequestProblem, which names the nearest."""
        return _find(self.pairs, name, later("pair"))

    def process(self, name: str) -> Process:
        """The process of that name; raises RequestProblem, which names the nearest."""
        return _find(self.processes, name, later("process"))

    def materials_of(self, pair: Pair) -> PairMaterials:
        """The materials a pair names; raises RequestProblem where one is not there."""
        contact = pair.contact if pair.contact_layers else pair.support_body
        return PairMaterials(*(self.material(n) for n in (pair.model, pair.support_body, contact)))

    def pairs_of(self, model: str) -> tuple[Pair, ...]:
        """The pairs for one model material."""
        return tuple(pair for pair in self.pairs if pair.model == model)

    def with_own(self, own: "Shop") -> "Shop":
        """A shop in which `own` things come first and replace those of the same name."""
        return Shop(
            _merged(own.machines, self.machines),
            _merged(own.materials, self.materials),
            _merged(own.pairs, self.pairs),
            _merged(own.processes, self.processes),
            (*own.problems, *self.problems),
        )


def read_shop(folder: Path) -> Shop:
    """What lies in the folders machines, materials, pairs and processes of `folder`.

    A file that is at fault is left aside, and `problems` says so; what is not there is empty.
    """
    found: dict[str, list] = {}
    problems = []
    for kind, made in KINDS.items():
        found[kind] = []
        for path in sorted((folder / kind).glob("*.toml")):
            try:
                found[kind].append(read_toml(path.read_text("utf-8"), made, path.name))
            except RequestProblem as problem:
                problems.append(str(problem))
            except (OSError, UnicodeDecodeError) as error:
                problems.append(
                    say("{name} cannot be read ({error}).", name=path.name, error=error)
                )
    return Shop(**{kind: tuple(things) for kind, things in found.items()}, problems=tuple(problems))


@cache
def example_shop() -> Shop:
    """The generic machines, materials, pairs and processes that the program brings along."""
    shop = read_shop(resource_file("shop"))
    first = {name: place for place, name in enumerate(_ORDER)}

    def in_order(things):
        return tuple(sorted(things, key=lambda thing: first.get(thing.name, len(first))))

    return Shop(
        in_order(shop.machines),
        in_order(shop.materials),
        in_order(shop.pairs),
        in_order(shop.processes),
        shop.problems,
    )


# What stands first is what is taken until the user chooses.
_ORDER = ("One nozzle, medium", "PLA", "PLA alone", "Usual")


def _merged(own: tuple[Named, ...], others: tuple[Named, ...]) -> tuple[Named, ...]:
    names = {thing.name for thing in own}
    return (*own, *(thing for thing in others if thing.name not in names))


def _find(things: tuple[Named, ...], name: str, kind: str) -> Named:
    for thing in things:
        if thing.name == name:
            return thing
    wanted = name.casefold()
    for thing in things:
        if thing.name.casefold() == wanted:
            return thing
    names = [thing.name for thing in things]
    near = get_close_matches(name, names, 1, 0.4) or names[:1]
    meant = say('did you mean "{near}"?', near=near[0]) if near else say("there is none yet.")
    known = "; ".join(names)
    raise RequestProblem(
        say(
            'There is no {kind} "{name}"; {meant} Known: {known}.',
            kind=say(kind),
            name=name,
            meant=meant,
            known=known,
        )
    )
