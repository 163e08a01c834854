"""Who prints: the name, logo and currency that stand on what a client gets to see."""

import msgspec

from viewer.shop.sound_values import refuse
from viewer.words import say


class Maker(msgspec.Struct, frozen=True):
    """The user's own company, empty until it is set.

    company : its name; logo_png : its logo as the bytes of a PNG, b"" for none
    currency : what money is called on a sheet; "" as the machine's rate is given in
    """

    company: str = ""
    currency: str = ""
    logo_png: bytes = b""

    def __post_init__(self) -> None:
        refuse(
            say("Your company"),
            (
                (
                    len(self.company) <= 80 and self.company.isprintable(),
                    say("keep its name within 80 letters, without line breaks."),
                ),
                (
                    len(self.currency) <= 8 and self.currency.isprintable(),
                    say('name the currency in up to 8 letters, such as "EUR".'),
                ),
            ),
        )
