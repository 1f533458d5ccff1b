"""What things are called, and when they were: identifiers, reserved words, trouble codes, revisions, dates.

Some of these faults are found while a file is read or looked for; their modules hold the page alone.
"""
