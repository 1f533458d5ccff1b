"""Which pages of the demo manual stand for their kinds."""

#: The procedures with the longest pages, on which a look at every element takes longest.
LONGEST = (
    "larkway-m12/find-insulation-fault.html", "thistledown-v4/starter-generator-no-output.html",
    "granbrook-t8/replace-inverter-coolant-pump.html",
)  # fmt: skip
#: A shorter one with the same: steps of a performed procedure, branches, gauges, a photo, connector faces.
SHORTER = ("larkway-m12/contactor-stuck.html",)

#: Made by the same lines as another page of `KINDS`: looked at by axe-core in a campaign.
ALIKE = (
    "vehicles.html", "systems.html", "parts.html", "torques.html", "rules.html", "calculators/voltage-drop.html",
    "calculators/ntc-by-table.html", "larkway-m12/what-is-known-of-insulation-faults.html",
)  # fmt: skip

#: One page of each kind, the longest of its kind where there are several.
KINDS = (
    "index.html", "vehicles.html", "codes.html", "systems.html", "parts.html", "torques.html", "limits.html", "tools.html",
    "format.html", "rules.html", "rules/unknown-key.html", "larkway-m12/vehicle.html", "granbrook-t8/energy.html",
    "granbrook-t8/review.html", "larkway-m12/find-insulation-fault.briefing.html",
    *LONGEST, "book/how-to-write.html", "404.html",
    "commands.html", "larkway-m12/how-the-traction-system-works.html", "larkway-m12/what-is-known-of-insulation-faults.html",
    "calculators.html", "calculators/discharge.html", "calculators/voltage-drop.html", "calculators/ntc-by-table.html",
)  # fmt: skip
