"""Pages: one module a kind of page, from data to the body of a page. Nothing here knows MkDocs."""
