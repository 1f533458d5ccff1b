"""Tags in free pages: `[[energy: larkway-m12]]` and the like."""
