"""Fit how often going round her comes off, on the published shoot-out.

Run from the repository's root: ``python studies/breakaway.py``. Nothing is random. A lone carrier
comes straight in at speed from three places, nobody near; where she stands is the engine's answer.
The share ``play.deke_open`` of moves that come off is set so that the mean cost of the three is the
published goal chance of a shoot-out attempt (ARCTIC11, facts.toml ``game.shootout_goal``). The
breakaway of the same source (``game.breakaway_goal``, a small sample and not sure) is not used for
the fit and is printed beside the same attack with somebody chasing.
"""

from __future__ import annotations

from tendline.base import Level, Settings, fact_table
from tendline.body import build_goaltender
from tendline.ice import rink
from tendline.motion import motion_parameters
from tendline.play import Attacker, Defender, Goaltender, Read, Situation, play_parameters, read

LEVEL = Level.MEN_ELITE
HER = Goaltender(build=build_goaltender(stature=1.84, level=LEVEL), motion=motion_parameters(LEVEL))
COMING_IN = ((9.0, 6.0), (7.0, 6.0), (5.6, 5.0))
"""How far out [m] and how fast [m/s] he is: the places of the validation report's check."""
CHASER_BEHIND = 2.5
"""How far behind him the chaser is [m], as fast as he is."""
HALVINGS = 10


def answer(deke_open: float, out: float, speed: float, *, chased: bool = False) -> Read:
    """Return the read of a lone carrier, perhaps chased."""
    parameters = play_parameters(LEVEL, Settings.of({"play.deke_open": deke_open}))
    chaser = Defender(name="D1", x=out + CHASER_BEHIND, y=0.0, vx=-speed)
    moment = Situation(
        rink=rink(),
        carrier=Attacker(name="F1", x=out, y=0.0, vx=-speed),
        mates=(),
        defenders=(chaser,) if chased else (),
        level=LEVEL,
    )
    return read(moment, HER, parameters, detail=False)


def cost(deke_open: float, out: float, speed: float, *, chased: bool = False) -> float:
    """Return the goal chance of his best option where the engine tells her to stand."""
    return max(one.loss for one in answer(deke_open, out, speed, chased=chased).options)


def mean_cost(deke_open: float, *, chased: bool = False) -> float:
    """Return the mean over the three places."""
    costs = [cost(deke_open, out, speed, chased=chased) for out, speed in COMING_IN]
    return sum(costs) / len(costs)


def fit(wanted: float) -> float:
    """Return the share that comes off at which the mean cost is as wanted, by halving."""
    low, high = 0.3, 1.0
    for _ in range(HALVINGS):
        middle = 0.5 * (low + high)
        low, high = (middle, high) if mean_cost(middle) < wanted else (low, middle)
    return 0.5 * (low + high)


def main() -> None:
    """Print the fitted share and what it gives."""
    breakaway = float(fact_table("game.breakaway_goal")["v"])
    shootout = float(fact_table("game.shootout_goal")["v"])
    fitted = fit(shootout)
    print(f"play.deke_open = {fitted:.3f}  (fitted on the shoot-out, {shootout:g})")
    for out, speed in COMING_IN:
        found = answer(fitted, out, speed)
        print(
            f"  {out:g} m at {speed:g} m/s: {cost(fitted, out, speed):.3f}, she stands "
            f"{found.depth:.2f} m out (as good: {found.band.low:.2f} to {found.band.high:.2f} m)"
        )
    print(f"  mean {mean_cost(fitted):.3f}")
    print(f"  chased {mean_cost(fitted, chased=True):.3f}; breakaway, not used: {breakaway:g}")


if __name__ == "__main__":
    main()
