"""Games shot by shot: events, replay, records with honest spans, imports, what it cost and why."""

from tendline.log.baseline import Expectation, expectation, published_chance
from tendline.log.codec import KINDS, event_from_dict, event_kind, event_to_dict
from tendline.log.columns import (
    FIELDS,
    ColumnMapping,
    Ends,
    FileUnit,
    Origin,
    Stream,
    fitting,
    mapping_from_dict,
    mapping_to_dict,
    ready_mappings,
)
from tendline.log.comparing import Compared, Comparison, compare
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
from tendline.log.habits import Habits, ShooterHabit, habits, option_counts
from tendline.log.importing import Imported, ImportedGame, ImportRefusedError, import_table
from tendline.log.judge import Judge
from tendline.log.records import Record, Records, by, rebound_control, records, records_of
from tendline.log.replay import live, replay, standing, unique
from tendline.log.situation import infer_situation
from tendline.log.statistics import Share, wilson
from tendline.log.table import Table, read_table, text_of
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
from tendline.log.why import Costs, CostSum, ShotCost, why_it_cost

__all__ = [
    "FIELDS", "KINDS", "NO_CONTEXT", "THEMES", "Cause", "Chance", "ChanceSeen", "ColumnMapping",
    "Compared", "Comparison", "Context", "CostSum", "Costs", "Ends", "Event", "Expectation",
    "FileUnit", "Finding", "Findings", "Frame", "Game", "GameEnd", "GameEvent", "GameSetUp",
    "Given", "GoalRating", "GoaltenderChange", "Grade", "Habits", "ImportRefusedError",
    "Imported", "ImportedGame", "Judge", "NoteKind", "NoteTaken", "Origin", "PeriodStart",
    "Rating", "Readiness", "Record", "Records", "RinkEnd", "Share", "ShooterHabit", "Shot",
    "ShotCost", "ShotDetail", "ShotTaken", "Stint", "Stream", "Strength", "Table", "Theme",
    "Undo", "Weight", "by", "compare", "event_from_dict", "event_kind", "event_to_dict",
    "expectation", "findings", "fitting", "habits", "import_table", "infer_situation", "live",
    "mapping_from_dict", "mapping_to_dict", "option_counts", "published_chance", "read_table",
    "ready_mappings", "rebound_control", "records", "records_of", "replay", "standing",
    "text_of", "theme", "unique", "why_it_cost", "wilson",
]  # fmt: skip
