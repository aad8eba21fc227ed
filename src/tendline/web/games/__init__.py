"""Log a game shot by shot, and see what it came to."""

from tendline.web.games.views import router

__all__ = ["router"]
