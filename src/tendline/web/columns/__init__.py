"""Columns: say which column of a shot table holds what, see what that reads, keep it, use it."""

from tendline.web.columns.views import router

__all__ = ["router"]
