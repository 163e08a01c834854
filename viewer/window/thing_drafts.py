"""The things that the form lists: saved or not yet, own or brought along, with unsaved edits."""

from dataclasses import dataclass
from typing import Any

import msgspec

from viewer.errors import RequestProblem, ShowsideError
from viewer.files.shop_folder import Thing, forget_thing, save_thing, shop_folder
from viewer.shop.shop import Shop, example_shop, read_shop
from viewer.shop.toml_text import KINDS
from viewer.words import say

SAID = ("name", "notes", "drying", "emissions", "bond", "bond_source", "touched_face")


@dataclass(eq=False)
class Listed:
    """One thing of the list.

    saved : as it is on disk or brought along, None where it was never saved
    own : a file of the user's; draft : plain values that are not saved, None where there are none
    """

    saved: Thing | None
    own: bool
    draft: dict[str, Any] | None = None

    @property
    def name(self) -> str:
        """What it is called now."""
        return self.draft["name"] if self.draft is not None else self.saved.name

    @property
    def values(self) -> dict[str, Any]:
        """The plain values to show; what an example says, in the language in force."""
        if self.draft is not None:
            return self.draft
        plain = msgspec.to_builtins(self.saved)
        return plain if self.own else _said(plain)


class ThingDrafts:
    """All lists of the shop; what is edited stays here until it is saved or let go."""

    def __init__(self) -> None:
        own, examples = read_shop(shop_folder()), example_shop()
        self.problems = own.problems
        self._lists = {kind: _listed(kind, own, examples) for kind in KINDS}

    def of(self, kind: str) -> list[Listed]:
        """The list of a kind, the user's own first."""
        return self._lists[kind]

    def unsaved(self) -> int:
        """How many things hold edits that are not saved."""
        return sum(one.draft is not None for listed in self._lists.values() for one in listed)

    def add(self, kind: str, like: Listed | None) -> Listed:
        """A new thing, or a copy of another with its sources; not saved yet."""
        values = msgspec.to_builtins(getattr(example_shop(), kind)[0])
        values |= {"sources": {}, "name": _new_name(self.of(kind), say("New"))}
        if like is not None:
            name = _new_name(self.of(kind), say("{name}, copy", name=like.values["name"]))
            values = {**like.values, "name": name}
        made = Listed(None, True, values)
        self.of(kind).insert(0, made)
        return made

    def save(self, kind: str, one: Listed) -> None:
        """Write an edited thing into its file. Raises RequestProblem, CannotWrite."""
        thing = checked(kind, one.draft)
        others = [each for each in self.of(kind) if each is not one and each.own]
        if any(each.saved is not None and each.saved.name == thing.name for each in others):
            raise RequestProblem(
                say("There is another “{name}” already; choose another name.", name=thing.name)
            )
        save_thing(thing)
        if one.saved is not None and one.saved.name != thing.name:
            forget_thing(one.saved)
        one.saved, one.draft = thing, None

    def remove(self, kind: str, one: Listed) -> None:
        """Take an own thing off the list and its file from the disk. Raises CannotWrite."""
        if one.saved is not None:
            forget_thing(one.saved)
        self.of(kind).remove(one)

    def bring_back(self, kind: str, one: Listed) -> None:
        """Put a thing that was removed back, in list and file. Raises CannotWrite."""
        if one.saved is not None:
            save_thing(one.saved)
        self.of(kind).insert(0, one)


def checked(kind: str, values: dict[str, Any]) -> Thing:
    """The thing of plain values; raises RequestProblem in one sentence."""
    try:
        return msgspec.convert(values, KINDS[kind])
    except msgspec.ValidationError as error:
        raise RequestProblem(say("{error}; correct that value.", error=str(error))) from error


def problem_of(kind: str, values: dict[str, Any]) -> str:
    """What is wrong with plain values, "" where nothing is."""
    try:
        checked(kind, values)
    except ShowsideError as problem:
        return str(problem)
    return ""


def _listed(kind: str, own: Shop, examples: Shop) -> list[Listed]:
    mine = [Listed(thing, True) for thing in getattr(own, kind)]
    names = {one.name for one in mine}
    others = [Listed(thing, False) for thing in getattr(examples, kind)]
    return mine + [one for one in others if one.name not in names]


def _said(values: dict[str, Any]) -> dict[str, Any]:
    """Words for people in the language in force; names of materials stay, since pairs use them."""
    told = {key: say(values[key]) for key in SAID if key in values}
    for parts in ("nozzles", "forbidden"):
        if parts in values:
            told[parts] = [{**part, "name": say(part["name"])} for part in values[parts]]
    sources = {key: say(text) for key, text in values["sources"].items()}
    return {**values, **told, "sources": sources}


def _new_name(listed: list[Listed], wanted: str) -> str:
    names, found, count = {one.name for one in listed}, wanted, 1
    while found in names:
        count += 1
        found = f"{wanted} {count}"
    return found
