"""What a file is by its first bytes, whatever its name says.

Sources: the signatures are those of ITU-T T.81 (JPEG), ISO/IEC 15948 (PNG), RFC 9649 (WebP), ISO/IEC 23008-12 (HEIC and
its kin), AVIF 1.1 and TIFF 6.0, from memory, as are the others.
"""

#: The kinds that are shown.
SHOWN = ("JPEG", "PNG", "WebP")

_SIGNS = (
    (b"\xff\xd8", "JPEG"),
    (b"\x89PNG\r\n\x1a\n", "PNG"),
    (b"GIF8", "GIF"),
    (b"II*\0", "TIFF or raw"),
    (b"MM\0*", "TIFF or raw"),
    (b"%PDF", "PDF"),
    (b"PK\x03\x04", "ZIP"),
    (b"version https://git-lfs", "Git LFS"),
)
#: The word behind `ftyp` in files that are built like ISO/IEC 14496-12.
_BRANDS = {
    **dict.fromkeys((b"heic", b"heix", b"heim", b"heis", b"hevc", b"hevx", b"mif1", b"msf1"), "HEIC"),
    **dict.fromkeys((b"avif", b"avis"), "AVIF"),
}


def kind_of(head: bytes) -> str:
    """The kind of a file by its first hundred bytes: among others "JPEG", "HEIC", "text", "empty", "unknown"."""
    if not head:
        return "empty"
    if head[:4] == b"RIFF" and head[8:12] == b"WEBP":
        return "WebP"
    if head[4:8] == b"ftyp":
        return _BRANDS.get(head[8:12], "film")
    if head[:2] == b"BM" and head[6:10] == bytes(4):
        return "BMP"
    for sign, kind in _SIGNS:
        if head.startswith(sign):
            return kind
    return _of_text(head)


def _of_text(head: bytes) -> str:
    """Whether it is a web page, a drawing or other text; a sign that is cut off at the end counts for nothing."""
    text = head.decode("utf-8", "ignore").lstrip("\ufeff \t\r\n").lower()
    if text.startswith(("<!doctype html", "<html")):
        return "web page"
    if text.startswith(("<svg", "<?xml")):
        return "SVG"
    is_clear = len(text.encode("utf-8")) > len(head) * 0.9 and not any(
        one < " " and one not in "\t\r\n" for one in text
    )
    return "text" if is_clear else "unknown"
