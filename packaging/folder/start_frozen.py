"""Where the packed program begins."""

import sys

from viewer.app import main

if __name__ == "__main__":
    sys.exit(main())
