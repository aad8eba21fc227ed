"""Which day it is for a club: the demo club lives on its own day, everyone else on the clock's."""

from __future__ import annotations

from datetime import date

from tendline.store import Store
from tendline.work.demo import TODAY


def today(store: Store) -> date:
    """Return today's date, or the demo club's."""
    return TODAY if store.club.get().is_demo else date.today()
