"""About how high a step is on a phone, so that the page has room for it before it is laid out.

A long page lays out what is near the window only. Were its steps guessed alike, the scroll bar would jump while
somebody reads, and what is higher than its room would lie over the next step until it is laid out.
"""

import re

_ON_PAPER = re.compile(r'<p class="job-paper".*?</p>', re.DOTALL)
_DRAWING = re.compile(r'<svg class="bl-map-drawing" viewBox="0 0 ([\d.]+) ([\d.]+)"')
_PICTURE = re.compile(r'<img\b[^>]*?\bwidth="(\d+)"[^>]*?\bheight="(\d+)"')
_SVG = re.compile(r"<svg.*?</svg>", re.DOTALL)
_BLOCK = re.compile(r"<(?:li|p|dt|h[34])\b")
_TAG = re.compile(r"<[^>]*>")
#: Width of a drawing and of the text on a phone, in pixels.
_WIDTH = 340
#: Pixels of a rem of this theme.
_REM = 20


def room(html: str) -> int:
    """The height in rem, of the inside of a step or a conclusion.

    Pixels for a letter, a block and a pixel of drawings and pictures: fitted by least squares to 626 steps and
    conclusions on a phone 412 pixels wide, where 9 of 10 came out within 85 pixels; 60 are added, since too little is
    worse than too much.
    """
    html = _ON_PAPER.sub("", html)
    drawn = sum(float(height) * min(1, _WIDTH / float(width)) for width, height in _DRAWING.findall(html))
    drawn += sum(_WIDTH * int(height) / int(width) for width, height in _PICTURE.findall(html))
    text = _SVG.sub("", html)
    letters = len(" ".join(_TAG.sub("", text).split()))
    pixels = 41 + 0.61 * letters + 37.5 * len(_BLOCK.findall(text)) + 1.08 * drawn + 60
    return round(pixels / _REM)
