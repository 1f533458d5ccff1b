"""Names that are not to be had for a file on every computer."""

#: Names of devices. Windows opens the device whatever stands behind the name, as in `aux.yml`, and whatever the case
#: (Microsoft, "Naming Files, Paths, and Namespaces"). Those with a raised digit are no names here in any case.
KEPT_BY_WINDOWS = frozenset(
    {"aux", "con", "nul", "prn", *(f"{port}{number}" for port in ("com", "lpt") for number in range(1, 10))}
)
