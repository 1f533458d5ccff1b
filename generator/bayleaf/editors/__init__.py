"""What an editor needs to help while a file is being typed: schemas with the manual's own names, and settings.

`names` what a vehicle and its workshop have · `for_editor` a schema made whole, with names and words ·
`snippets` one step of each kind to begin with · `settings` which schema holds for which files · `files` all of it
as texts by path.
"""
