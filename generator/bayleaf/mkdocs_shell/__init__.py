"""The only importer of MkDocs: the plugin, and the direct path of `render` and `preview`.

Both run the same events and the same templates over the same files, so that a page is the same
bytes whichever way it was made; the direct path leaves out what has no effect on it.

`settings` what is set in the configuration · `published` which files become the site · `contents`
what is put into pages · `source` where the pages come from · `plugin`, `direct` the two paths.
"""

from .direct import Shell, ShellError, open_shell
from .plugin import BayleafPlugin

__all__ = ["BayleafPlugin", "Shell", "ShellError", "open_shell"]
