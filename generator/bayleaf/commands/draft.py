"""`bayleaf draft`: asks about a job in plain words and writes a procedure to go on with."""

from dataclasses import replace
from datetime import date
from pathlib import Path

import click

from ..drafts.asked import KINDS, Asked, as_said, name_from, things_of
from ..drafts.from_record import draft_from
from ..drafts.new_vehicle import vehicle_draft
from ..drafts.procedure import draft as drafted
from ..drafts.surroundings import Around
from ..loading.shape_words import nearest
from ..manual import Manual, ManualKeeper, manual_above
from ..manual_files import RESERVED_FILE_NAMES
from ..model.trouble_code import parse_trouble_code
from ..records.evaluate import evaluate
from ._asking import NOTHING, ask, ask_until, choose
from ._help import WithExamples
from ._new_vehicle import asked_vehicle
from ._records import known, record_of, record_path, refuse_faulty
from ._writing import against_name, write
from .common import WrongCall, manual_for, say, the_day


@click.command(
    "draft",
    cls=WithExamples,
    examples=(
        ("bayleaf draft", "asks, and offers what the profile of the vehicle knows"),
        (
            "bayleaf draft --vehicle larkway-m12 --kind replacement --title 'Replace the body controller' "
            "--system none --code none --symptom none --touches body-controller --name replace-body-controller",
            "the same without a question",
        ),
        (
            "bayleaf draft --from 2026-0417 --title 'Find the insulation fault' --name drafted-from-the-job",
            "a procedure from the steps of a job record",
        ),
        (
            "bayleaf draft --new-vehicle own-van --called 'Own van with 48 V' --energy power-48 "
            "--highest power-48=54 --point isolator-48",
            "the profile of a vehicle",
        ),
    ),
)
@click.option("--manual", "start", type=click.Path(path_type=Path), help="The manual's folder. [default: around here]")
@click.option("--vehicle", metavar="NAME", help="The vehicle: the name of its folder.")
@click.option("--kind", metavar="KIND", help=f"What kind of job: {', '.join(KINDS)}.")
@click.option("--title", metavar="TEXT", help="What is done, in one line.")
@click.option("--name", metavar="NAME", help="The name of the file. [default: from the title]")
@click.option("--system", metavar="NAME", help="The system of the vehicle under which it is listed.")
@click.option(
    "--code", "codes", multiple=True, metavar="CODE", help="A trouble code that leads to it; may be repeated."
)
@click.option("--symptom", "symptoms", multiple=True, metavar="TEXT", help="What is noticed; may be repeated.")
@click.option("--touches", "touched", multiple=True, metavar="NAME", help="A part or connector; may be repeated.")
@click.option("--from", "record", metavar="RECORD", help="Draft from a job record: its path, or the number of the job.")
@click.option("--new-vehicle", metavar="NAME", help="Draft a vehicle profile instead; NAME is that of its folder.")
@click.option("--called", metavar="TEXT", help="With --new-vehicle: how the vehicle is called.")
@click.option("--energy", multiple=True, metavar="NAME", help="With --new-vehicle: what holds energy; may be repeated.")
@click.option("--highest", multiple=True, metavar="NAME=VOLTS", help="With --new-vehicle: a highest voltage.")
@click.option("--point", multiple=True, metavar="NAME", help="With --new-vehicle: where energy is taken off.")
@click.option("--today", metavar="DATE", help="The day that the file is dated with (year-month-day).")
def command(
    start: Path | None,
    vehicle: str | None,
    kind: str | None,
    title: str | None,
    name: str | None,
    system: str | None,
    codes: tuple[str, ...],
    symptoms: tuple[str, ...],
    touched: tuple[str, ...],
    record: str | None,
    new_vehicle: str | None,
    called: str | None,
    energy: tuple[str, ...],
    highest: tuple[str, ...],
    point: tuple[str, ...],
    today: str | None,
) -> int:
    """Draft a procedure.

    Asks what was done and what was touched, and writes procedures/VEHICLE/NAME.yml: the isolation that the touched
    circuits ask for, the work with places marked TODO, the tightening torques that the profile knows, the way back
    into service. Nothing is ever overwritten.

    With --from the steps are those of a job record, as they were done. Its readings become limits to start from where a
    step has none and no safety rests on it. Only --title and --name go with it.

    With --new-vehicle the profile of a vehicle is drafted. What is not known of it counts as unsafe, so the check
    refuses work on it until that is filled in.

    Every question is also an option. `none` stands for nothing, as in --code none. Answers may come from a file or a
    pipe, one a line, as UTF-8.
    """
    day = the_day(today) or date.today()
    of_a_job = any((vehicle, kind, title, name, system, codes, symptoms, touched, record))
    of_a_vehicle = any((called, energy, highest, point))
    if new_vehicle is not None and of_a_job or new_vehicle is None and of_a_vehicle:
        raise WrongCall("--new-vehicle goes with --called, --energy, --highest and --point, and with no other question")
    if record is not None and any((vehicle, kind, system, codes, symptoms, touched)):
        raise WrongCall("with --from the record says all but --title and --name; leave the other options out")
    path = record_path(record, start) if record is not None else None
    folder = manual_for([start] if start else [path] if path is not None and manual_above(path.parent) else [])
    keeper = ManualKeeper(folder)
    manual = keeper.manual(day)
    if new_vehicle is not None:
        profile = asked_vehicle(new_vehicle, called, energy, highest, point, manual)
        return write(vehicle_draft(profile), "vehicle", keeper, day)
    if path is not None:
        return _from_record(path, title, name, keeper, manual, day)
    around = known(manual, _vehicle(vehicle, manual))
    asked = _asked(around, kind, title, name, system, codes, symptoms, touched, folder)
    return write(drafted(asked, around, day), "procedure", keeper, day)


def _from_record(
    path: Path, title: str | None, name: str | None, keeper: ManualKeeper, manual: Manual, day: date
) -> int:
    record, procedure = record_of(path, manual)
    refuse_faulty(procedure.file, manual)
    around = known(manual, procedure.folder)
    say(f"Job {record.job}, worked by {procedure.id}: {procedure.title}")
    title = as_said(title or ask("What is done, in one line", "--title", procedure.title))
    suggested = name_from(f"{procedure.id.split('/')[1]} {record.job}")
    name = _name(name, suggested, around, manual.folder)
    evaluation = evaluate(record, manual.procedures, around.vehicle, manual.workshop)
    made = draft_from(evaluation, name, title, around, day)
    if record.job not in manual.records:
        note = f"put {path} into {manual.folder / 'records'}: the draft names the job as a source."
        made = replace(made, notes=(*made.notes, note))
    return write(made, "procedure", keeper, day)


def _vehicle(given: str | None, manual: Manual) -> str:
    offered = {name: one.name for name, one in manual.vehicles.items()}
    if not offered:
        raise WrongCall("this manual has no vehicle yet. `bayleaf draft --new-vehicle NAME` drafts its profile.")
    if given is not None and given not in offered:
        near = nearest(given, offered)
        hint = f"Did you mean {near}?" if near else f"There are {', '.join(offered)}."
        raise WrongCall(f"there is no vehicle {given}. {hint} `bayleaf draft --new-vehicle {given}` drafts a new one.")
    only = next(iter(offered)) if len(offered) == 1 else None
    return choose("Which vehicle?", "--vehicle", offered, (given,) if given else (), default=only)[0]


def _asked(
    around: Around, kind: str | None, title: str | None, name: str | None, system: str | None,
    codes: tuple[str, ...], symptoms: tuple[str, ...], touched: tuple[str, ...], folder: Path,
) -> Asked:  # fmt: skip
    """All questions in their order; an option answers its own."""
    vehicle = around.vehicle
    (kind,) = choose("What kind of job is it?", "--kind", KINDS, (kind,) if kind else ())
    if title is None:
        say("")
        title = ask("What is done, in one line", "--title")
    title = as_said(title)
    if not title:
        raise WrongCall("--title: say in one line what is done")
    name = _name(name, title, around, folder)
    systems = _system(system, around)
    is_job = kind not in ("isolation", "return to service")
    if is_job:
        codes = _codes(codes, around)
        symptoms = _symptoms(symptoms)
    what = "Which parts and connectors are touched, in their order?"
    found = choose(what, "--touches", things_of(vehicle), touched, many=True, somebody=True)
    return Asked(name, title, kind, systems, codes, symptoms, found)


def _name(given: str | None, title: str, around: Around, folder: Path) -> str:
    def against(name: str) -> str | None:
        if not name:
            return "the file needs a name, such as replace-heater"
        fault = against_name(name, "file", RESERVED_FILE_NAMES)
        if fault is not None:
            return fault
        path = folder / "procedures" / around.folder / f"{name}.yml"
        return (
            f"{name} is there already: {path}. Nothing is overwritten; choose another name" if path.exists() else None
        )

    if given is not None:
        fault = against(given)
        if fault is not None:
            raise WrongCall(fault)
        return given
    suggested = name_from(title)
    usable = suggested if suggested and against(suggested) is None else None
    if suggested and usable is None:
        say(against(suggested) or "")
    return ask_until("Name of the file", "--name", against, usable)


def _system(given: str | None, around: Around) -> str | None:
    systems = around.vehicle.systems
    if not systems or (given or "").casefold() == NOTHING:
        return None
    found = choose("Which system does it belong to?", "--system", systems, (given,) if given else (), many=True)
    if len(found) > 1:
        raise WrongCall("a procedure belongs to one system")
    return found[0] if found else None


def _codes(given: tuple[str, ...], around: Around) -> tuple[str, ...]:
    known = around.vehicle.codes

    def read(words: str) -> tuple[list[str], str | None]:
        codes = [word.upper() for word in words.replace(",", " ").split()]
        named = [list(known)[int(one) - 1] if one.isdecimal() and 0 < int(one) <= len(known) else one for one in codes]
        bad = next((one for one in named if parse_trouble_code(one) is None), None)
        return list(dict.fromkeys(named)), None if bad is None else f"{bad} is no trouble code, such as P0AA6"

    if given:
        codes, fault = read(" ".join(given) if [*given] != [NOTHING] else "")
        if fault is not None:
            raise WrongCall(f"--code: {fault}")
        return tuple(codes)
    say("\nWhich trouble codes lead to it?")
    for number, (code, one) in enumerate(known.items(), 1):
        say(f"  {number:>2}  {code}  {one.means}")
    answer = ask_until("Codes or numbers (empty for none)", "--code", lambda text: read(_or_nothing(text))[1], "")
    return tuple(read(_or_nothing(answer))[0])


def _or_nothing(text: str) -> str:
    return "" if text.casefold() == NOTHING else text


def _symptoms(given: tuple[str, ...]) -> tuple[str, ...]:
    """One a line, until an empty one."""
    if given:
        return () if [*given] == [NOTHING] else tuple(filter(None, map(as_said, given)))
    say("\nWhat does the driver or the technician notice? One thing a line.")
    found: list[str] = []
    while answer := ask("Symptom (empty when there is no more)", "--symptom", ""):
        if answer.casefold() == NOTHING:
            break
        found.append(answer)
    return tuple(found)
