"""What the puck sees of the net, and what the goaltender sees of the puck."""

from tendline.sight.areas import (
    AREA_NAMES,
    FAR_SIDE,
    SHORT_SIDE,
    OpenArea,
    SideShares,
    open_areas,
    side_shares,
)
from tendline.sight.clear import ClearSight, clear_sight
from tendline.sight.cover import Cover, cover, cover_many, cover_reference
from tendline.sight.exact import ExactCover, exact_cover
from tendline.sight.grid import MouthGrid, mouth_grid
from tendline.sight.many import exact_cover_many, hidden_many, open_areas_many
from tendline.sight.pictures import Outline, PuckEye, View, eye_of, goaltender_eye, puck_eye
from tendline.sight.skaters import skater_body

__all__ = [
    "AREA_NAMES", "FAR_SIDE", "SHORT_SIDE", "ClearSight", "Cover", "ExactCover", "MouthGrid",
    "OpenArea", "Outline", "PuckEye", "SideShares", "View", "clear_sight", "cover", "cover_many",
    "cover_reference", "exact_cover", "exact_cover_many", "eye_of", "goaltender_eye", "hidden_many",
    "mouth_grid", "open_areas", "open_areas_many", "puck_eye", "side_shares", "skater_body",
]  # fmt: skip
