"""The season's page: weeks and stages, practices kept, minutes planned and done."""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import date
from typing import Annotated

from fastapi import APIRouter, Form, Request
from fastapi.responses import HTMLResponse, RedirectResponse, Response

from tendline.practice import Coverage, Week
from tendline.store import Store
from tendline.web.shell.render import data, page
from tendline.work.day import today
from tendline.work.season import coverage_at, plan_for

router = APIRouter()


@dataclass(frozen=True, slots=True)
class PracticeRow:
    """One practice that was kept."""

    day: str
    team: str
    title: str


@dataclass(frozen=True, slots=True)
class SeasonPage:
    """The season so far and to come."""

    club: str
    start: str
    weeks: tuple[Week, ...]
    this_week: int
    coverage: tuple[Coverage, ...]
    practices: tuple[PracticeRow, ...]
    games: int


def season_page(store: Store, today: date) -> SeasonPage:
    """Return the season as the club's file tells it."""
    club = store.club.get()
    plan = plan_for(start=club.season_start) if club.season_start else None
    week = plan.week_of(today) if plan else None
    return SeasonPage(
        club=club.name,
        start=club.season_start.isoformat() if club.season_start else "",
        weeks=plan.weeks if plan else (),
        this_week=week.number if week else 0,
        coverage=coverage_at(store, plan, today) if plan else (),
        practices=tuple(
            PracticeRow(one.day.isoformat(), one.team, str(one.sheet.get("title", "practice")))
            for one in store.practices.list()
        ),
        games=len(store.games.headers()),
    )


@router.get("/season")
def season(request: Request) -> HTMLResponse:
    """Return the season's page."""
    store: Store = request.app.state.store
    return page("season/page.html", season_page(store, today(store)))


@router.get("/season.json")
def season_data(request: Request) -> Response:
    """Return the season as data."""
    store: Store = request.app.state.store
    return data(season_page(store, today(store)))


@router.post("/season")
def set_start(request: Request, start: Annotated[date, Form()]) -> Response:
    """Set the day on which the season starts."""
    store: Store = request.app.state.store
    store.club.save(replace(store.club.get(), season_start=start))
    return RedirectResponse("/season", status_code=303)
