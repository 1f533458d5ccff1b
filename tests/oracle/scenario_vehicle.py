"""The vehicle of the scenarios, and the pieces that most of them begin with."""

VEHICLE = """\
format: 1
vehicle: van
name: Van
circuits:
  traction:
    name: Traction DC bus
    energy: electrical
    voltage: {kind: dc, nominal: 355 V, max: 410 V}
    sources:
      battery: {taken_off_by: [[service-plug], [left-fuse, right-fuse]]}
      charging: {taken_off_by: [[charge-lead]]}
      converter: none
      external: none
    rotation: {turns_with: driven wheels, constant: 80 V per 1000 rpm, at_most: 3000 rpm}
    monitor: none
    stored: {capacitance: 1.1 mF ± 20 %, bleed: 47 kΩ ± 5 %, stated_wait: 5 min, to_chassis: 0.4 µF}
    dead_at:
      - {pair: [X1/1 cable, X1/2 cable], access: inverter-cover}
      - {pair: [X1/1 cable, chassis], access: inverter-cover}
      - {pair: [X1/2 cable, chassis], access: inverter-cover}
  auxiliary:
    name: Link of the auxiliary inverter
    energy: electrical
    voltage: {kind: dc, nominal: 355 V, max: 410 V}
    sources:
      battery: {taken_off_by: [[service-plug], [left-fuse, right-fuse]]}
      charging: {taken_off_by: [[charge-lead]]}
      converter: none
      external: none
    monitor: none
    stored: {capacitance: 500 µF, stated_wait: 10 min, bleed: none}
    dead_at:
      - {pair: [X3/1 cable, X3/2 cable], access: auxiliary-cover}
      - {pair: [X3/1 cable, chassis], access: auxiliary-cover}
      - {pair: [X3/2 cable, chassis], access: auxiliary-cover}
  power-48:
    name: 48 V supply
    energy: electrical
    voltage: {kind: dc, nominal: 48 V, max: 54 V}
    sources:
      battery: {taken_off_by: [[isolator-48]]}
      charging: none
      converter: none
      external: none
    monitor: none
    stored: none
    dead_at:
      - {pair: [X5/1 cable, X5/2 cable]}
  supply-12:
    name: 12 V supply
    energy: electrical
    voltage: {kind: dc, nominal: 12 V, max: 15 V}
    fused: yes
    sources:
      battery: {taken_off_by: [[aux-negative]]}
      charging: none
      converter: {taken_off_by: [[mode-off]]}
      external: none
    monitor: none
    stored: none
isolation_points:
  charge-lead: {name: Charge lead, kind: charge lead, breaks: conductor, leaves_live: none, first: none, only_when: {mode: off}, secure_with: Padlock}
  aux-negative: {name: Negative post, kind: pole, breaks: conductor, leaves_live: none, first: none, only_when: {mode: off}}
  service-plug: {name: Service plug, kind: plug, breaks: middle of the battery, leaves_live: none, first: [aux-negative], only_when: {mode: off, open: [charge-lead]}, secure_with: Padlock}
  left-fuse: {name: Left fuse, kind: plug, breaks: conductor, leaves_live: none, first: [aux-negative], only_when: none, secure_with: Padlock}
  right-fuse: {name: Right fuse, kind: plug, breaks: conductor, leaves_live: none, first: [aux-negative], only_when: none, secure_with: Padlock}
  isolator-48: {name: 48 V isolator, kind: switch, breaks: conductor, leaves_live: none, first: none, only_when: {mode: off}}
  main-contactor: {name: Main contactor, kind: contactor, breaks: coil supply only, leaves_live: none, first: none, only_when: none, secure_with: Padlock}
connectors:
  X1: {name: Inverter inlet, pins: {1: {signal: HV+, circuit: traction}, 2: {signal: HV−, circuit: traction}}}
  X3: {name: Auxiliary inlet, pins: {1: {signal: HV+, circuit: auxiliary}, 2: {signal: HV−, circuit: auxiliary}}}
  X4:
    name: Plug between bus and link
    pins: {1: {signal: HV+, circuit: {device: auxiliary, cable: traction}}}
  X5: {name: 48 V studs, pins: {1: {signal: plus, circuit: power-48}, 2: {signal: minus, circuit: power-48}}}
  X7: {name: Heater plug, pins: {1: {signal: HV+, circuit: traction}, 2: {signal: HV−, circuit: traction}}}
  X21: {name: Lamp plug, pins: {1: {signal: supply, circuit: supply-12}}}
parts:
  inverter-cover: {name: Inverter cover, circuits: none, exposes: [traction]}
  auxiliary-cover: {name: Cover of the auxiliary inverter, circuits: none, exposes: [auxiliary]}
  heater: {name: Cabin heater, circuits: [traction], exposes: none, connectors: [X7]}
  coolant-hose: {name: Coolant hose, circuits: none, exposes: none}
fasteners:
  inverter-terminals: {terminal: [X1/1, X1/2], size: M6, torque: 6 N·m}
  studs-48: {terminal: [X5/1, X5/2], size: M8, torque: 12 N·m}
"""

HEAD = """\
format: 1
id: van/{name}
title: Job
kind: repair
revisions:
  - {{number: 1, date: 2026-09-30, why: First version}}
"""

OFF = """\
  - set: {mode: off}
  - disconnect: charge-lead
  - disconnect: aux-negative
  - disconnect: service-plug
"""
LOCK = "  - secure: [charge-lead, service-plug]\n"
WAIT = "  - wait: 5 min\n    for: [traction]\n"
COVER = "  - remove: inverter-cover\n"
TESTER = """\
    using: voltage-tester
    tester_proved: {before: proving-unit, after: proving-unit}
    limits: at most 5 V
    source: workshop practice
"""
PROVE = "  - prove_dead: traction\n" + TESTER
#: Eight steps after which the traction bus is proved dead.
DEAD = OFF + LOCK + WAIT + COVER + PROVE
#: The work is done at the bare terminals of the inverter.
WORK = "  - do: Clean the studs.\n    on: X1/1\n"
REFIT = "  - refit: inverter-cover\n"
RELEASE = "  - release: [charge-lead, service-plug]\n"
RECONNECT = "  - reconnect: service-plug\n  - reconnect: charge-lead\n"
INSULATION = """\
  - measure: Insulation of the bus
    quantity: insulation resistance
    between: [X1/1 cable, chassis]
    using: insulation-tester
    test_voltage: 500 V
    limits: at least 1 MΩ
    source: workshop practice
"""
BOND = """\
  - measure: Bond of the heater
    quantity: bonding resistance
    at: [heater, chassis]
    using: milliohm-meter
    test_current: 1 A
    limits: at most 40 mΩ
    source: workshop practice
"""
READ_HOUSING = """\
  - measure: Voltage of the housing
    quantity: voltage
    at: [heater, chassis]
    using: multimeter
    limits: at most 5 V
    source: workshop practice
"""
READ_48 = """\
  - measure: Voltage at the studs
    quantity: voltage
    current_kind: dc
    between: [X5/1 cable, X5/2 cable]
    using: multimeter
    limits: at most 5 V
    source: workshop practice
"""
