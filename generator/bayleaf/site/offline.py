"""What lets a manual be read without a network: written into a finished site, from its files alone.

`version.js`     which version it is: a hash of the content and the day of the newest revision. No time of building.
`manifest.json`  the web manifest, by which a browser offers to install the manual.
`sw.js`          the list of all files, each with a hash of its bytes, for the service worker `assets/worker.js`.

The worker keeps a file only if its bytes have the hash of the list, so that what it keeps is never a mixture of two
versions.
"""

import hashlib
import json
from collections.abc import Mapping
from datetime import date
from pathlib import Path
from typing import Any

from . import folder

VERSION, MANIFEST, WORKER = "version.js", "manifest.json", "sw.js"
#: For search engines and for us: nothing that a reader opens.
_NOT_READ = frozenset((folder.MARK, "sitemap.xml", "sitemap.xml.gz"))
#: So many hex digits of SHA-256: enough to tell versions of a file apart, and short in a list of thousands.
DIGITS = 16

#: A worker that takes itself away, for the preview: one left by a site at the same address would show old pages.
RETIRED = """\
self.addEventListener("install", () => self.skipWaiting());
self.addEventListener("activate", (event) => event.waitUntil((async () => {
  await self.registration.unregister();
  for (const tab of await self.clients.matchAll({ type: "window" })) tab.navigate(tab.url);
})()));
"""


def write(site: Path, name: str, newest: date | None) -> None:
    """Write the three files into the finished folder `site` of the manual `name`."""
    hashes = file_hashes(site)
    version = {"hash": content_hash(hashes), "newest": newest.isoformat() if newest else None, "files": len(hashes)}
    pieces = {
        VERSION: f"window.bayleafVersion = {_json(version)};\n",
        MANIFEST: json.dumps(manifest(name), ensure_ascii=False, indent=1) + "\n",
    }
    folder.write_pieces(site, pieces)
    hashes |= {address: _hash(text.encode("utf-8")) for address, text in pieces.items()}
    kept = {address: hashes[address] for address in sorted(hashes)}
    listed = f'self.bayleafFiles = {_json(kept)};\nimportScripts("assets/worker.js");\n'
    folder.write_pieces(site, {WORKER: listed})


def file_hashes(site: Path) -> dict[str, str]:
    """The hash of each file that a reader may open, by its address."""
    read = (name for name in folder.listing(site) if name not in _NOT_READ)
    return {name: _hash((site / name).read_bytes()) for name in read}


def content_hash(hashes: Mapping[str, str]) -> str:
    """One short hash over every file, names included."""
    return _hash("".join(f"{name}\n{hashes[name]}\n" for name in sorted(hashes)).encode("utf-8"))[:8]


def manifest(name: str) -> dict[str, Any]:
    """The web manifest: addresses are relative to it, so that it fits any folder of a server."""
    return {
        "name": name,
        "short_name": name[:30],
        "start_url": "index.html",
        "scope": "./",
        "display": "standalone",
        "background_color": "#ffffff",
        "theme_color": "#16423a",
        "icons": [
            {"src": "assets/bayleaf.svg", "type": "image/svg+xml", "sizes": "any"},
            {"src": "assets/bayleaf-192.png", "type": "image/png", "sizes": "192x192"},
            {"src": "assets/bayleaf-512.png", "type": "image/png", "sizes": "512x512"},
            {"src": "assets/bayleaf-512.png", "type": "image/png", "sizes": "512x512", "purpose": "maskable"},
        ],
    }


def _hash(data: bytes) -> str:
    return hashlib.sha256(data).hexdigest()[:DIGITS]


def _json(data: Any) -> str:
    return json.dumps(data, ensure_ascii=False, separators=(",", ":"))
