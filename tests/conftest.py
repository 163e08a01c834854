"""What all tests share: how hypothesis searches."""

from hypothesis import HealthCheck, settings

# Same examples every run, so that a red test is red again on the next machine; no deadline, as the
# first call of a kernel compiles it.
settings.register_profile(
    "showside",
    derandomize=True,
    deadline=None,
    max_examples=50,
    suppress_health_check=[HealthCheck.too_slow],
)
settings.load_profile("showside")
