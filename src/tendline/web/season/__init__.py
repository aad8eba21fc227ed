"""The weeks of the season, planned and done."""

from tendline.web.season.views import router

__all__ = ["router"]
