"""Drills: find one, read its card, run it on the ice, see what it asks of the goaltender."""

from tendline.web.drills.views import router

__all__ = ["router"]
