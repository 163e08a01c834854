"""How often the objects of a 3MF repeat one another, found before lib3mf opens it.

Objects made of components double with every level: a kilobyte can mean millions of copies, and
lib3mf walks through all of them while it reads. So the structure alone is counted first.
"""

import re

from viewer.progress import Progress

_TAGS = re.compile(rb"<(?:\w+:)?(object|component)\s([^>]*)>")
_ID = re.compile(rb"""(?<![\w:])(?:object)?id\s*=\s*["']\s*(\d+)""")
_PATH = re.compile(rb"""(?<![\w])(?:\w+:)?path\s*=\s*["']\s*/?([^"']*)["']""")

# An object is named by the part of the package it stands in and its number there.
Key = tuple[bytes, int]


def components_of(part_name: str, content: bytes, progress: Progress) -> dict[Key, list[Key]]:
    """Which objects the objects in one model part consist of; raises Cancelled."""
    here = part_name.lstrip("/").encode()
    found: dict[Key, list[Key]] = {}
    if b"component" not in content:
        return found
    current: list[Key] = []
    for step, tag in enumerate(_TAGS.finditer(content)):
        number = _ID.search(tag[2])
        if tag[1] == b"object":
            current = found.setdefault((here, int(number[1])), []) if number else []
        elif number:
            path = _PATH.search(tag[2])
            current.append((path[1] if path else here, int(number[1])))
        if step % 10_000 == 0:
            progress.check()
    return found


def most_copies(components: dict[Key, list[Key]]) -> int:
    """The largest number of meshes that one of the objects comes to, without expanding anything.

    References that lead nowhere or in a circle count as one; lib3mf refuses them by itself.
    """
    counts: dict[Key, int] = {}
    for start in components:
        waiting, open_keys = [start], set()
        while waiting:
            key = waiting[-1]
            missing = [
                child
                for child in components.get(key, ())
                if child not in counts and child not in open_keys
            ]
            if key not in counts and missing:
                open_keys.add(key)
                waiting += missing
                continue
            waiting.pop()
            children = components.get(key, ())
            counts.setdefault(key, sum(counts.get(child, 1) for child in children) or 1)
    return max(counts.values(), default=1)
