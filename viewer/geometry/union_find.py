"""Groups of numbers that hang together: each knows a lower one of its group, or is the lowest.

Source: B. A. Galler & M. J. Fischer, An improved equivalence algorithm (1964); the path is halved
on the way (J. van Leeuwen & T. van der Weide, 1977; both MEM).
"""

from viewer.geometry.compiled import compiled


@compiled
def lowest_of_group(parent, number):
    """The lowest number of a group; `parent`, (n,) int, starts as 0, 1, 2, … and is shortened."""
    while parent[number] != number:
        parent[number] = parent[parent[number]]
        number = parent[number]
    return number


@compiled
def join_groups(parent, one, other):
    """Make one group of the groups of two numbers."""
    one, other = lowest_of_group(parent, one), lowest_of_group(parent, other)
    parent[max(one, other)] = min(one, other)
