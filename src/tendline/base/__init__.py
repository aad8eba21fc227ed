"""Units, errors, shared vocabularies, and numbers that know where they come from."""

from tendline.base.checks import nearest_name, require_number, unknown_name
from tendline.base.constant import (
    DEFAULT_SETTINGS,
    Constant,
    OriginKind,
    Settings,
    assumed,
    build,
    by_key,
    constants_of,
    fact,
    fact_table,
    parameter,
    source_text,
)
from tendline.base.errors import (
    InputError,
    NoConvergenceError,
    NotFoundError,
    PlanError,
    RowError,
    ScriptError,
    StoreError,
    TendlineError,
)
from tendline.base.units import (
    LengthUnit,
    counted,
    metres_from,
    metres_to,
    show_length,
    show_seconds,
)
from tendline.base.vocabulary import Level, ScoringSituation, Sex, ShotResult, ShotType, Side

__all__ = [
    "DEFAULT_SETTINGS", "Constant", "InputError", "LengthUnit", "Level", "NoConvergenceError",
    "NotFoundError", "OriginKind", "PlanError", "RowError", "ScoringSituation", "ScriptError",
    "Settings", "Sex", "ShotResult", "ShotType", "Side", "StoreError", "TendlineError", "assumed",
    "build", "by_key", "constants_of", "counted", "fact", "fact_table", "metres_from", "metres_to",
    "nearest_name", "parameter", "require_number", "show_length", "show_seconds", "source_text",
    "unknown_name",
]  # fmt: skip
