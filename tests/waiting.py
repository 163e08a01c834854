"""How long a test waits for what comes sooner or later.

Far longer than it takes on a busy machine that compiles kernels for the first time, so that a test
fails because something did not come, never because it came late.
"""

LONG_MS = 120_000
