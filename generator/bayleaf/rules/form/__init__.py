"""How a file is written. These faults are found while it is read; the modules here are their pages."""
