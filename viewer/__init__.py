"""Showside: lay a part so that the side that shows comes out clean."""

__version__ = "0.1.0"
