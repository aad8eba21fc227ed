"""How much a script may hold: scripts come from strangers, so every size has a bound.

These are limits on input, not hockey figures: far above what a coach needs.
"""

from __future__ import annotations

MAX_BYTES = 200_000
MAX_LINES = 2_000
MAX_LINE_LENGTH = 600
MAX_DEPTH = 3
MAX_BRANCHES = 8
MAX_PATHS = 64
MAX_ACTIONS = 200
MAX_PEOPLE = 40
MAX_THINGS = 60
MAX_TEXTS = 40
MAX_KEY_POINTS = 3
MAX_ERRORS = 50
MAX_COORDINATE = 70.0
MAX_SECONDS = 600.0
MAX_SPEED = 60.0
