"""`python -m viewer` and `showside`: a command, or the window."""

import sys

from viewer.app import main

if __name__ == "__main__":
    sys.exit(main())
