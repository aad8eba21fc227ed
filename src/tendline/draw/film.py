"""A drill's run as GIF, MP4 or WebM."""

from __future__ import annotations

import io
from collections.abc import Callable, Sequence
from typing import Any

from tendline.base import InputError, unknown_name
from tendline.draw.animation import Painter
from tendline.draw.moments import Moment

FILM_KINDS = ("gif", "mp4", "webm")
GIF_COLOURS = 64
_CODECS = {
    "mp4": ("libx264", {"crf": "23", "preset": "veryfast"}),
    "webm": ("libvpx-vp9", {"crf": "34", "b": "0", "deadline": "realtime", "cpu-used": "6"}),
}

Progress = Callable[[int, int], None]


def drill_film(
    painter: Painter,
    moments: Sequence[Moment],
    *,
    kind: str = "gif",
    rate: float = 12.5,
    progress: Progress | None = None,
) -> bytes:
    """Return the moments as a film file of ``kind`` "gif", "mp4" or "webm".

    ``rate`` is in frames a second (the moments must be evenly spaced at it for true speed);
    ``progress`` is called with the number of frames done and their total. Raises
    ``NotFoundError`` for another kind, ``InputError`` for no moments, or for mp4 and webm where the
    optional package ``av`` is missing.
    """
    if kind not in FILM_KINDS:
        raise unknown_name("kind of film", kind, FILM_KINDS)
    if not moments:
        raise InputError("a film needs at least one moment", came="none", item=painter.drill.title)
    if kind == "gif":
        return _gif(painter, moments, rate, progress)
    return _video(painter, moments, kind, rate, progress)


def _gif(
    painter: Painter, moments: Sequence[Moment], rate: float, progress: Progress | None
) -> bytes:
    from PIL import Image

    palette = painter.paint(moments[0]).quantize(GIF_COLOURS, dither=Image.Dither.NONE)
    images = []
    for index, one in enumerate(painter.images(moments)):
        images.append(one.quantize(palette=palette, dither=Image.Dither.NONE))
        if progress is not None:
            progress(index + 1, len(moments))
    out = io.BytesIO()
    images[0].save(
        out, format="GIF", save_all=True, append_images=images[1:], loop=0,
        duration=round(1000.0 / rate), optimize=False,
    )  # fmt: skip
    return out.getvalue()


def _video(
    painter: Painter, moments: Sequence[Moment], kind: str, rate: float, progress: Progress | None
) -> bytes:
    try:
        import av
    except ImportError as error:
        raise InputError(
            f"a film as {kind} needs the optional package av",
            allowed="gif works without it",
            hint="Install it with: pip install 'tendline[video]'.",
        ) from error
    from fractions import Fraction

    codec, options = _CODECS[kind]
    out = io.BytesIO()
    container: Any
    frames: Any = av.VideoFrame
    with av.open(out, mode="w", format=kind) as container:
        stream = container.add_stream(codec, rate=Fraction(rate).limit_denominator(1000))
        stream.width, stream.height = painter.width, painter.height
        stream.pix_fmt = "yuv420p"
        stream.options = options
        for index, one in enumerate(painter.images(moments)):
            container.mux(stream.encode(frames.from_image(one)))
            if progress is not None:
                progress(index + 1, len(moments))
        container.mux(stream.encode())
    return out.getvalue()
