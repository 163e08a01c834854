"""What of the shop a job is printed with, by name."""

from dataclasses import dataclass

from viewer.errors import RequestProblem
from viewer.shop.sound_values import LONGEST_NAME
from viewer.words import say

MOST_COPIES = 10_000
MOST_BESIDE = 200


@dataclass(frozen=True)
class ShopChoice:
    """Names of a machine, a pair and a process, and what is printed at once.

    copies : of the part; beside : names of the job's pieces that stand beside them

    "" leaves it to the shop, which takes what stands first. Names that a shop does not have are
    kept, since a job may come from another one.
    """

    machine: str = ""
    pair: str = ""
    process: str = ""
    copies: int = 1
    beside: tuple[str, ...] = ()

    def __post_init__(self) -> None:
        if any(len(name) > LONGEST_NAME for name in (self.machine, self.pair, self.process)):
            raise RequestProblem(
                say(
                    "A name in the shop has at most {longest_name} letters.",
                    longest_name=LONGEST_NAME,
                )
            )
        object.__setattr__(self, "beside", tuple(dict.fromkeys(self.beside)))
        if len(self.beside) > MOST_BESIDE or any(len(n) > LONGEST_NAME for n in self.beside):
            raise RequestProblem(
                say(
                    "At most {most} pieces can stand beside the part; choose fewer.",
                    most=MOST_BESIDE,
                )
            )
        if isinstance(self.copies, bool) or not 1 <= self.copies <= MOST_COPIES:
            raise RequestProblem(
                say(
                    "The number of copies must lie between 1 and {most_copies}.",
                    most_copies=MOST_COPIES,
                )
            )
