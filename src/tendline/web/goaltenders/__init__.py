"""Each goaltender's file."""

from tendline.web.goaltenders.views import router

__all__ = ["router"]
