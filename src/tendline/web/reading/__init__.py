"""Read the play: drag people on the ice, and the answer follows the finger."""

from tendline.web.reading.views import router

__all__ = ["router"]
