"""Settings for all tests: correctness is tested here, speed in tests/bench.

Hypothesis' deadline measures the wall clock, which a busy machine makes fail at random.
"""

from __future__ import annotations

import os
import sys
from pathlib import Path

from hypothesis import HealthCheck, settings

settings.register_profile("house", deadline=None, suppress_health_check=[HealthCheck.too_slow])
settings.load_profile(os.environ.get("STEEPWRIGHT_HYPOTHESIS", "house"))

sys.path.insert(0, str(Path(__file__).parent))  # what tests of several rooms share
