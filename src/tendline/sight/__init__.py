"""What the puck sees of the net, and what the goaltender sees of the puck."""

from tendline.sight.cover import Cover, cover, cover_reference
from tendline.sight.grid import MouthGrid, mouth_grid

__all__ = ["Cover", "MouthGrid", "cover", "cover_reference", "mouth_grid"]
