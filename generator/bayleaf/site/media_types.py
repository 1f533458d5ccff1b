"""What a browser is told that a file is, by its ending: the same on every computer.

The system is not asked: on Windows any program may have written there that a script is plain text, and such a script
or style sheet is refused.
"""

import mimetypes

_KNOWN = mimetypes.MimeTypes()  # the table of Python alone; what it lacks, or had otherwise, before 3.13 is put in
for _type, _ending in (
    ("text/javascript", ".js"),  # RFC 9239
    ("image/webp", ".webp"),  # RFC 9649
    ("font/woff", ".woff"),  # RFC 8081
    ("font/woff2", ".woff2"),
):
    _KNOWN.add_type(_type, _ending)


def media_type(address: str) -> str:
    """The type of a file of the site (RFC 2046)."""
    return _KNOWN.guess_type(address)[0] or "application/octet-stream"
