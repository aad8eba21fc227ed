"""Tonight's ice: what the games cost, what to train, and the sheet."""

from tendline.web.tonight.views import router

__all__ = ["router"]
