"""What every test run shares: the marks, the record of published checks, what is left out, and how hard to search."""

from __future__ import annotations

from hypothesis import HealthCheck, settings

pytest_plugins = ["tests.published", "tests.left_out", "pytester"]

# The first call of a kernel loads or compiles it, so a deadline would measure the compiler and not the code.
# "ci" is the default: the same few examples every time, so that a red build is red for everybody.
settings.register_profile(
    "ci",
    deadline=None,
    derandomize=True,
    max_examples=25,
    database=None,
    suppress_health_check=[HealthCheck.too_slow],
)
# `make validate` searches: other examples each time, and many of them.
settings.register_profile("search", settings.get_profile("ci"), derandomize=False, max_examples=300)
settings.load_profile("ci")
