"""The language server for YAML that editors use, spoken to over its protocol."""

import json
import os
import shutil
import subprocess
from pathlib import Path
from typing import Any

CHECKOUT = Path(__file__).resolve().parents[2]
SCRIPT = "node_modules/yaml-language-server/bin/yaml-language-server"


def installed() -> Path:
    """The script of the server: where `tools.py test` has put it, or where BAYLEAF_YAML_SERVER says."""
    named = os.environ.get("BAYLEAF_YAML_SERVER")
    return Path(named) if named else CHECKOUT / ".venv" / "node" / SCRIPT


class LanguageServer:
    """One server for one manual; `settings` are those of an editor."""

    def __init__(self, script: Path, settings: dict[str, Any], root: Path) -> None:
        node = os.environ.get("BAYLEAF_NODE") or shutil.which("node") or "node"
        self._settings = settings
        self._process = subprocess.Popen(
            [node, str(script), "--stdio"], stdin=subprocess.PIPE, stdout=subprocess.PIPE, stderr=subprocess.DEVNULL
        )
        self._number = 0
        self._configured = False
        self._opened: set[str] = set()
        self._diagnostics: dict[str, list[dict[str, Any]]] = {}
        support = {
            "completion": {"completionItem": {"snippetSupport": True}},
            "publishDiagnostics": {},
        }
        capabilities = {"workspace": {"configuration": True}, "textDocument": support}
        folders = [{"uri": root.as_uri(), "name": "manual"}]
        self._ask(
            "initialize",
            {"processId": None, "rootUri": root.as_uri(), "capabilities": capabilities, "workspaceFolders": folders},
        )
        self._tell("initialized", {})
        while not self._configured:
            self._read()

    def close(self) -> None:
        """Ends this server."""
        self._ask("shutdown", None)
        self._tell("exit", None)
        self._process.wait(timeout=20)

    def problems(self, path: Path, text: str) -> list[dict[str, Any]]:
        """What the server marks in a file that holds this text."""
        uri = self._open(path, text)
        while uri not in self._diagnostics:
            self._read()
        return self._diagnostics[uri]

    def offered(self, path: Path, text: str) -> list[str]:
        """The labels offered at the sign `|` of a text."""
        found = self._at("textDocument/completion", path, text)
        return [item["label"] for item in found["items"]]

    def told(self, path: Path, text: str) -> str:
        """What is shown for the word that holds the sign `|`."""
        return str(self._at("textDocument/hover", path, text)["contents"]["value"])

    def _at(self, method: str, path: Path, text: str) -> Any:
        before, _, behind = text.partition("|")
        place = {"line": before.count("\n"), "character": len(before.rpartition("\n")[2])}
        uri = self._open(path, before + behind)
        return self._ask(method, {"textDocument": {"uri": uri}, "position": place})

    def _open(self, path: Path, text: str) -> str:
        """Opens a text under a name that was not opened before: late words about an earlier text cannot be mixed up."""
        while path.as_uri() in self._opened:
            path = path.with_name(f"{path.stem}-{len(self._opened)}.yml")
        uri = path.as_uri()
        self._opened.add(uri)
        document = {"uri": uri, "languageId": "yaml", "version": 1, "text": text}
        self._tell("textDocument/didOpen", {"textDocument": document})
        return uri

    def _ask(self, method: str, params: Any) -> Any:
        self._number += 1
        number = self._number
        self._send({"id": number, "method": method, "params": params})
        while True:
            message = self._read()
            if message.get("id") == number and "method" not in message:
                return message.get("result")

    def _tell(self, method: str, params: Any) -> None:
        self._send({"method": method, "params": params})

    def _send(self, message: dict[str, Any]) -> None:
        assert self._process.stdin is not None
        data = json.dumps({"jsonrpc": "2.0", **message}).encode()
        self._process.stdin.write(b"Content-Length: %d\r\n\r\n%s" % (len(data), data))
        self._process.stdin.flush()

    def _read(self) -> dict[str, Any]:
        """One message; a question of the server is answered, what it marks is kept."""
        assert self._process.stdout is not None
        length = 0
        while (line := self._process.stdout.readline()).strip():
            if line.lower().startswith(b"content-length:"):
                length = int(line.split(b":")[1])
        assert length, "the language server has ended"
        message: dict[str, Any] = json.loads(self._process.stdout.read(length))
        method = message.get("method")
        if method == "textDocument/publishDiagnostics":
            self._diagnostics[message["params"]["uri"]] = message["params"]["diagnostics"]
        elif method == "workspace/configuration":
            asked = [item.get("section", "") for item in message["params"]["items"]]
            self._send({"id": message["id"], "result": [self._section(name) for name in asked]})
            self._configured = True
        elif method is not None and "id" in message:
            self._send({"id": message["id"], "result": None})
        return message

    def _section(self, name: str) -> dict[str, Any]:
        """The settings below a name, nested as an editor hands them out."""
        found: dict[str, Any] = {}
        for key, value in self._settings.items():
            if key.startswith(f"{name}."):
                *outer, last = key.removeprefix(f"{name}.").split(".")
                inner = found
                for part in outer:
                    inner = inner.setdefault(part, {})
                inner[last] = value
        return found
