"""Levels of data buses, their mean, their termination."""

from math import inf

from data.row import Row

_SHEETS = "data sheets of transceivers to ISO 11898-2"
_TRAINING = "training page of a maker of network tools"

#: bus, state, line; least, usual, most; where from
_LEVELS = (
    ("CAN", "dominant", "high", (2.75, 3.5, 4.5), _SHEETS + ", 50 Ω to 65 Ω", "read"),
    ("CAN", "dominant", "low", (0.5, 1.5, 2.25), _SHEETS + ", 50 Ω to 65 Ω", "read"),
    ("CAN", "recessive", "high", (2.0, 2.5, 3.0), _SHEETS, "read"),
    ("CAN", "recessive", "low", (2.0, 2.5, 3.0), _SHEETS, "read"),
    ("CAN", "dominant", "between", (1.5, 2.0, 3.0), _SHEETS + ", 50 Ω to 65 Ω", "read"),
    ("CAN", "dominant, 45 to 70 Ω", "between", (1.4, None, 3.3), _SHEETS, "read"),
    ("CAN", "dominant, arbitration", "between", (1.5, None, 5.0), _SHEETS + ", 2.24 kΩ", "read"),
    ("CAN", "recessive", "between", (-0.120, 0, 0.012), _SHEETS + ", 60 Ω", "read"),
    ("CAN", "recessive, no load", "between", (-0.050, 0, 0.050), _SHEETS, "read"),
    ("CAN", "asleep", "high", (-0.1, 0, 0.1), _SHEETS, "read"),
    ("CAN", "asleep", "low", (-0.1, 0, 0.1), _SHEETS, "read"),
    ("CAN SIC", "dominant", "high", (3.0, None, 4.26), "data sheets of transceivers", "read"),
    ("CAN SIC", "dominant", "low", (0.75, None, 2.01), "data sheets of transceivers", "read"),
    ("CAN SIC", "recessive", "high", (2.256, None, 2.756), "data sheets of transceivers, terminated", "read"),
    ("CAN SIC", "recessive", "low", (2.256, None, 2.756), "data sheets of transceivers, terminated", "read"),
    ("CAN FD", "dominant", "high", (2.75, 3.5, 4.5), "ISO 11898-2:2016, the same levels up to 5 Mbit/s", "from memory"),
    ("CAN low speed", "recessive", "high", (None, 0, None), _TRAINING, "restated"),
    ("CAN low speed", "recessive", "low", (None, 5, None), _TRAINING, "restated"),
    ("CAN low speed", "recessive", "between", (None, -5, None), _TRAINING, "restated"),
    ("CAN low speed", "dominant", "high", (None, 3.6, None), _TRAINING, "restated"),
    ("CAN low speed", "dominant", "low", (None, 1.4, None), _TRAINING, "restated"),
    ("CAN low speed", "dominant", "between", (2, None, None), _TRAINING, "restated"),
    ("FlexRay", "idle", "high", (1.8, 2.5, 3.2), _TRAINING + ", electrical physical layer", "restated"),
    ("FlexRay", "idle", "low", (1.8, 2.5, 3.2), _TRAINING + ", electrical physical layer", "restated"),
    ("FlexRay", "idle", "between", (None, 0, None), _TRAINING, "restated"),
    ("FlexRay", "asleep", "high", (-0.2, 0, 0.2), _TRAINING, "restated"),
    ("FlexRay", "asleep", "low", (-0.2, 0, 0.2), _TRAINING, "restated"),
    ("FlexRay", "data 1", "high", (None, 3.5, None), _TRAINING, "restated"),
    ("FlexRay", "data 1", "low", (None, 1.5, None), _TRAINING, "restated"),
    ("FlexRay", "data 1", "between", (None, 2, None), _TRAINING, "restated"),
    ("FlexRay", "data 0", "high", (None, 1.5, None), _TRAINING, "restated"),
    ("FlexRay", "data 0", "low", (None, 3.5, None), _TRAINING, "restated"),
    ("FlexRay", "data 0", "between", (None, -2, None), _TRAINING, "restated"),
)
_PARALLEL = "resistors in parallel"
_MEAN = "mean of 3.5 V and 1.5 V dominant, 2.5 V recessive, half of the bits dominant"
_LIN = "page of a maker of microcontrollers (receiver), data sheet of a transceiver (driver)"

ROWS = (
    *(Row("bus_level", given[:3], given[3], given[4], given[5]) for given in _LEVELS),
    Row("termination", (2,), 60, "training page, and " + _PARALLEL, "restated"),
    Row("termination", (1,), 120, "training page, and " + _PARALLEL, "restated"),
    Row("termination", (3,), 40, _PARALLEL, "computed"),
    Row("termination", (0,), inf, _PARALLEL, "computed"),
    Row("termination_range", (2, 120, 1), (59.4, 60.6), _PARALLEL, "computed"),
    Row("termination", (2, 100), 50, "load with which drivers are tested, 50 Ω to 65 Ω", "computed"),
    Row("termination", (2, 130), 65, "load with which drivers are tested, 50 Ω to 65 Ω", "computed"),
    Row("termination", (2, 120, 1, 30e3), 59.88, _PARALLEL, "computed", 0.005),
    Row("termination", (2, 80), 40, "load of FlexRay, 40 Ω to 55 Ω: " + _TRAINING, "restated"),
    Row("termination", (2, 110), 55, "load of FlexRay, 40 Ω to 55 Ω: " + _TRAINING, "restated"),
    Row("judged_termination", (60,), "two, as it should be", _PARALLEL, "restated"),
    Row("judged_termination", (120,), "one terminating resistor: one is missing", _PARALLEL, "restated"),
    Row("judged_termination", (40,), "three: one too many", _PARALLEL, "computed"),
    Row("judged_termination", (0,), "lines shorted to each other", _PARALLEL, "restated"),
    Row("judged_termination", (130,), "one terminating resistor: one is missing", _SHEETS, "computed"),
    Row("judged_termination", (131,), "no terminating resistor, or an open line", _SHEETS, "computed"),
    Row("judged_termination", (65,), "two, as it should be", _SHEETS + ", load of 50 Ω to 65 Ω", "read"),
    Row("judged_termination", (50,), "two, as it should be", _SHEETS + ", load of 50 Ω to 65 Ω", "read"),
    Row("judged_termination", (49,), "no number of resistors of 100 Ω to 130 Ω", _SHEETS, "computed"),
    Row("judged_termination", (inf,), "no terminating resistor, or an open line", _PARALLEL, "computed"),
    Row("mean_voltages", (0,), (2.50, 2.50, 0.0), _MEAN, "computed"),
    Row("mean_voltages", (10,), (2.55, 2.45, 0.1), _MEAN, "computed"),
    Row("mean_voltages", (20,), (2.60, 2.40, 0.2), _MEAN + "; 2.6 V and 2.4 V are common practice", "computed"),
    Row("mean_voltages", (40,), (2.70, 2.30, 0.4), _MEAN, "computed"),
    Row("mean_voltages", (60,), (2.80, 2.20, 0.6), _MEAN, "computed"),
    Row("lin_thresholds", (12.6,), (7.56, 5.04, 10.71, 2.52), _LIN, "computed"),
    Row("lin_thresholds", (14.0,), (8.40, 5.60, 11.90, 2.80), _LIN, "computed"),
    Row("lin_thresholds", (10.0,), (6.0, 4.0, 8.5, 2.0), _LIN, "read"),
)
