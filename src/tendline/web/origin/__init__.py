"""Where every number comes from, what changes it and how far the answer would move."""

from tendline.web.origin.views import router

__all__ = ["router"]
