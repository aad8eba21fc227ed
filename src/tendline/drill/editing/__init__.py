"""Edits of a drill as a page makes them, each from script to script."""

from tendline.drill.editing.commands import EDITS, TIMED, Written, apply_edit
from tendline.drill.editing.locate import Located, locate
from tendline.drill.editing.request import tags_of
from tendline.drill.editing.rows import Row, row_of, rows_of
from tendline.drill.editing.timing import line_numbers
from tendline.drill.editing.verbs import VerbNeeds, may_have, needs_of, verbs_for

__all__ = [
    "EDITS", "TIMED", "Located", "Row", "VerbNeeds", "Written", "apply_edit", "line_numbers",
    "locate", "may_have", "needs_of", "row_of", "rows_of", "tags_of", "verbs_for",
]  # fmt: skip
