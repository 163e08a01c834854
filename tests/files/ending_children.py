"""What a child process may do instead of its work: crash or hang."""

import os
import time


def crash(pipe, task) -> None:
    os.abort()


def hang(pipe, task) -> None:
    pipe.send(("doing", 0.3, "Hanging"))
    time.sleep(600)
