"""Games shot by shot: events, replay, records with honest spans, imports, what it cost and why."""

from tendline.log.baseline import Expectation, expectation, published_chance
from tendline.log.codec import KINDS, event_from_dict, event_kind, event_to_dict
from tendline.log.events import (
    NO_CONTEXT,
    ChanceSeen,
    Context,
    Event,
    GameEnd,
    GameEvent,
    GameSetUp,
    GoalRating,
    GoaltenderChange,
    NoteTaken,
    PeriodStart,
    ShotDetail,
    ShotTaken,
    Undo,
)
from tendline.log.findings import Finding, Findings, Weight, findings
from tendline.log.game import Chance, Game, Rating, Shot, Stint
from tendline.log.records import Record, Records, by, rebound_control, records, records_of
from tendline.log.replay import live, replay, unique
from tendline.log.situation import infer_situation
from tendline.log.statistics import Share, wilson
from tendline.log.themes import THEMES, Theme, theme
from tendline.log.vocabulary import (
    Cause,
    Frame,
    Given,
    Grade,
    NoteKind,
    Readiness,
    RinkEnd,
    Strength,
)

__all__ = [
    "KINDS", "NO_CONTEXT", "THEMES", "Cause", "Chance", "ChanceSeen", "Context", "Event",
    "Expectation", "Finding", "Findings", "Frame", "Game", "GameEnd", "GameEvent", "GameSetUp",
    "Given", "GoalRating", "GoaltenderChange", "Grade", "NoteKind", "NoteTaken", "PeriodStart",
    "Rating", "Readiness", "Record", "Records", "RinkEnd", "Share", "Shot", "ShotDetail",
    "ShotTaken", "Stint", "Strength", "Theme", "Undo", "Weight", "by", "event_from_dict",
    "event_kind", "event_to_dict", "expectation", "findings", "infer_situation", "live",
    "published_chance", "rebound_control", "records", "records_of", "replay", "theme", "unique",
    "wilson",
]  # fmt: skip
