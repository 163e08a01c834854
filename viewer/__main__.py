"""`python -m viewer` and `showside`: a command, or the window."""

import multiprocessing
import sys

from viewer.app import main

if __name__ == "__main__":
    multiprocessing.freeze_support()  # a frozen program starts itself for its processes
    sys.exit(main())
