"""Property tests on shared machines: a slow moment is no failure."""

from hypothesis import settings

settings.register_profile("unhurried", deadline=None)
settings.load_profile("unhurried")
