"""PyYAML's own scanner, brought into line with libyaml where the two read the same text differently."""

from typing import Any

from yaml.reader import Reader
from yaml.scanner import Scanner, ScannerError
from yaml.tokens import ScalarToken

_BREAKS = "\r\n"
_BLANK_OR_END = "\0 \t\r\n"


class SlowScanner(Reader, Scanner):
    """Differs from its base in four methods; each names what libyaml (0.2.5) does.

    The unusual line ends of YAML 1.1 (U+0085, U+2028, U+2029) are no concern here: they are taken out
    of a text before it is read.
    """

    def scan_to_next_token(self) -> None:
        """Skip spaces, remarks and line breaks, and tabs too where no key can begin."""
        while True:
            while self.peek() == " " or (self.peek() == "\t" and (self.flow_level or not self.allow_simple_key)):
                self.forward()
            if self.peek() == "#":
                while self.peek() not in "\0\r\n":
                    self.forward()
            if not self.scan_line_break():
                return
            if not self.flow_level:
                self.allow_simple_key = True

    def scan_flow_scalar(self, style: str) -> ScalarToken:
        """Half of a surrogate pair (`\\uD800`) is no character."""
        token = super().scan_flow_scalar(style)
        if any("\ud800" <= character <= "\udfff" for character in token.value):
            raise ScannerError(None, token.start_mark, "found unknown escape character", token.start_mark)
        return token

    def check_key(self) -> bool:
        """A question mark begins a key only before a blank, inside brackets too."""
        return self.peek(1) in _BLANK_OR_END

    def scan_plain(self) -> ScalarToken:
        """A text without quotes inside brackets may hold a question mark."""
        chunks: list[str] = []
        start_mark = end_mark = self.get_mark()
        indent = self.indent + 1
        spaces: list[str] = []
        while self.peek() != "#":
            length = self._plain_length()
            if length == 0:
                break
            self.allow_simple_key = False
            chunks.extend(spaces)
            chunks.append(self.prefix(length))
            self.forward(length)
            end_mark = self.get_mark()
            spaces = self.scan_plain_spaces(indent, start_mark)
            if not spaces or (not self.flow_level and self.column < indent):
                break
        return ScalarToken("".join(chunks), True, start_mark, end_mark)

    def _plain_length(self) -> int:
        length = 0
        ends_after_colon = _BLANK_OR_END + (",[]{}" if self.flow_level else "")
        while True:
            character = self.peek(length)
            if (
                character in _BLANK_OR_END
                or (character == ":" and self.peek(length + 1) in ends_after_colon)
                or (self.flow_level and character in ",[]{}")
            ):
                return length
            length += 1

    def scan_plain_spaces(self, indent: int, start_mark: Any) -> list[str]:
        """Tabs are blanks, but must not stand where the indent of a further line is."""
        blanks, breaks, broken = "", [], False
        while self.peek() in " \t\r\n":
            character = self.peek()
            if character in _BREAKS:
                breaks.append(self.scan_line_break())
                broken = self.allow_simple_key = True
                if self.prefix(3) in ("---", "...") and self.peek(3) in _BLANK_OR_END:
                    return []
                continue
            if broken and character == "\t" and self.column < indent:
                problem = "found a tab character that violates indentation"
                raise ScannerError("while scanning a plain scalar", start_mark, problem, self.get_mark())
            if not broken:
                blanks += character
            self.forward()
        if not broken:
            return [blanks] if blanks else []
        return breaks[1:] or [" "]
