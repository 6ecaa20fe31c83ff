"""Hypothesis: the same examples every run, no deadline on shared machines."""

from hypothesis import settings

settings.register_profile("steady", deadline=None, derandomize=True, print_blob=True)
settings.load_profile("steady")
