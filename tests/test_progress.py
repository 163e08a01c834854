"""The progress token: honest shares, cancel from any thread, sub-jobs that share both."""

import pytest

from viewer.errors import Cancelled
from viewer.progress import Progress


def test_report_tells_the_listener_and_stays_within_0_and_1():
    heard = []
    token = Progress(lambda share, doing: heard.append((share, doing)))
    token.report(-1, "a")
    token.report(0.5, "b")
    token.report(2, "c")
    assert heard == [(0.0, "a"), (0.5, "b"), (1.0, "c")]


def test_cancel_before_and_during():
    token = Progress()
    token.check()
    token.cancel()
    assert token.cancelled
    with pytest.raises(Cancelled):
        token.check()
    with pytest.raises(Cancelled):
        token.report(0.1)


def test_a_part_covers_its_share_and_shares_the_cancel():
    heard = []
    token = Progress(lambda share, doing: heard.append(share))
    half = token.part(0.5, 1.0)
    half.report(0.0)
    half.report(0.5)
    half.part(0.5, 1.0).report(1.0)
    assert heard == pytest.approx([0.5, 0.75, 1.0])
    half.cancel()
    assert token.cancelled
    with pytest.raises(Cancelled):
        half.part(0, 1).check()
