"""What a screen costs: late sight as time, no sight as a share of shots.

Goaltenders who save a shot have had their gaze on puck and blade for about a second before the
release (PV06), and goals are about twice as likely when that gaze starts late (QE16: 0.41 against
0.22). Late sight is therefore counted as a delay that grows as the clear sight before the release
shortens; a puck hidden at the release is not seen at all in a share of cases. How long the delay
and how large the share is, is assumed.
"""

from __future__ import annotations

from dataclasses import dataclass

from tendline.base import DEFAULT_SETTINGS, Settings, require_number
from tendline.shot import constants as known


@dataclass(frozen=True, slots=True)
class Sighting:
    """What ``goal_chance`` takes: ``delay`` (s) and the ``hidden`` share of such shots."""

    delay: float
    hidden: float


def screened(
    *, clear_seconds: float, hidden_at_release: float, settings: Settings = DEFAULT_SETTINGS
) -> Sighting:
    """Return the cost of a screen from the clear sight before the release.

    ``clear_seconds`` unbroken sight up to the release (s), as ``sight.clear_sight`` gives it;
    ``hidden_at_release`` the share of the puck that is hidden then. Raises :class:`InputError`
    for a negative time or a share outside 0..1.
    """
    clear = require_number("clear sight", clear_seconds, low=0.0, high=3600.0, unit="s")
    share = require_number("hidden share", hidden_at_release, low=0.0, high=1.0, unit="")
    missing = 1.0 - min(clear / settings.value_of(known.QUIET_EYE), 1.0)
    return Sighting(
        delay=settings.value_of(known.LATE_SIGHT) * missing,
        hidden=settings.value_of(known.SCREEN_UNSEEN) * share,
    )
