"""Settings of the whole test run."""

from __future__ import annotations

from hypothesis import settings

# How long an example takes depends on the machine: no claim is made about it here.
settings.register_profile("pairwright", deadline=None)
settings.load_profile("pairwright")
