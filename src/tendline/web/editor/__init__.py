"""Writing a drill: on the ice, on the time line and in the script, which are one and the same."""

from tendline.web.editor.views import router

__all__ = ["router"]
