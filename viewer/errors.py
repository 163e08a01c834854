"""Every error the user can meet, drawn in one place.

    ShowsideError                  one clear sentence, with what to do next
    ├── FileProblem                the file is at fault
    │   ├── UnreadableFile         not a mesh we can read, cut off, or refused by its reader
    │   ├── NothingToPrint         readable, but it holds no triangles
    │   └── CannotWrite            disk full, folder read-only, unknown kind of file
    ├── RequestProblem             the request is at fault (marks out of range, unknown value)
    └── Cancelled                  the user stopped a long job; nothing changed

The text of the exception *is* what the user reads. The command line ends with exit code 1 for
each of them.
"""


class ShowsideError(Exception):
    """Base of all errors whose text is written for the user."""


class FileProblem(ShowsideError):
    """The file is at fault."""


class UnreadableFile(FileProblem):
    """The file is not a mesh this program can read, is cut off, or its reader refuses it."""


class NothingToPrint(FileProblem):
    """The file is readable but holds no triangles to print."""


class CannotWrite(FileProblem):
    """The file cannot be written there, or not in that format."""


class RequestProblem(ShowsideError):
    """What was asked for does not fit the part: marks out of range, a value without meaning."""


class Cancelled(ShowsideError):
    """The user stopped a long job; nothing has changed."""
