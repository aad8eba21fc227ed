"""Contrast, colour-blind simulation and grey: measures for the tests of inks.

Contrast: W3C, Web Content Accessibility Guidelines 2.2 (2023), definitions of relative luminance
and contrast ratio. Colour blindness: Machado, Oliveira and Fernandes (2009), A physiologically-based
model for simulation of color vision deficiency, IEEE TVCG 15(6):1291-1298, matrices at severity 1.
Difference: CIE 1976 L*a*b*, D65.
"""

from __future__ import annotations

import numpy as np
import numpy.typing as npt

Vector = npt.NDArray[np.float64]

VISION: dict[str, list[list[float]]] = {
    "typical": [[1, 0, 0], [0, 1, 0], [0, 0, 1]],
    "protanopia": [[0.152286, 1.052583, -0.204868], [0.114503, 0.786281, 0.099216], [-0.003882, -0.048116, 1.051998]],
    "deuteranopia": [[0.367322, 0.860646, -0.227968], [0.280085, 0.672501, 0.047413], [-0.011820, 0.042940, 0.968881]],
    "tritanopia": [[1.255528, -0.076749, -0.178779], [-0.078411, 0.930809, 0.147602], [0.004733, 0.691367, 0.303900]],
}  # fmt: skip

_XYZ = np.array([[0.4124, 0.3576, 0.1805], [0.2126, 0.7152, 0.0722], [0.0193, 0.1192, 0.9505]])
_WHITE = np.array([0.9505, 1.0, 1.089])


def linear(colour: str) -> Vector:
    """Return linear light (3,) from ``#RRGGBB``."""
    raw = np.array([int(colour[i : i + 2], 16) for i in (1, 3, 5)]) / 255.0
    return np.where(raw <= 0.04045, raw / 12.92, ((raw + 0.055) / 1.055) ** 2.4)


def luminance(colour: str) -> float:
    """Return relative luminance, 0 to 1."""
    return float(linear(colour) @ np.array([0.2126, 0.7152, 0.0722]))


def contrast(one: str, other: str) -> float:
    """Return the contrast ratio, 1 to 21."""
    low, high = sorted((luminance(one), luminance(other)))
    return (high + 0.05) / (low + 0.05)


def _lab(light: Vector) -> Vector:
    ratio = _XYZ @ light / _WHITE
    f = np.where(ratio > 0.008856, np.cbrt(ratio), 7.787 * ratio + 16.0 / 116.0)
    return np.array([116.0 * f[1] - 16.0, 500.0 * (f[0] - f[1]), 200.0 * (f[1] - f[2])])


def difference(one: str, other: str, vision: str = "typical") -> float:
    """Return the colour difference as the named vision sees it; about 2 is just noticeable."""
    matrix = np.array(VISION[vision])
    seen = [_lab(np.clip(matrix @ linear(c), 0.0, 1.0)) for c in (one, other)]
    return float(np.linalg.norm(seen[0] - seen[1]))


def lightness(colour: str) -> float:
    """Return L*, 0 black to 100 white: what is left of a colour in grey."""
    return float(_lab(linear(colour))[0])
