"""Settings for all tests: hypothesis draws the same examples on every run, so that a red test stays red."""

import os

from hypothesis import HealthCheck, settings

settings.register_profile(
    "steady", derandomize=True, deadline=None, max_examples=30, suppress_health_check=[HealthCheck.too_slow, HealthCheck.filter_too_much]
)
settings.register_profile(
    "thorough", deadline=None, max_examples=200, suppress_health_check=[HealthCheck.too_slow, HealthCheck.filter_too_much]
)
settings.load_profile(os.environ.get("HYPOTHESIS_PROFILE", "steady"))
