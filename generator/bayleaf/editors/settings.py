"""Which schema holds for which files, as editors are told."""

from collections.abc import Iterable

#: The folder in a manual where the schemas for editors lie.
FOLDER = ".bayleaf"
#: Below it those of the vehicles: so a folder called like a kind of file, `vehicle` or `record`, gets its own, too.
VEHICLES = "vehicles"


def schema_of(vehicle: str) -> str:
    """The schema for the procedures in the folder of a vehicle, from the folder of the schemas."""
    return f"{VEHICLES}/{vehicle}.schema.json"


def yaml_schemas(vehicles: Iterable[str], folder: str = FOLDER) -> dict[str, list[str]]:
    """The setting `yaml.schemas`: each schema with the files that it holds for, both from the folder of the manual.

    The name of each vehicle folder has a schema of its own; profile and procedures of a folder are told apart by name.
    """
    found = {
        f"./{folder}/workshop.schema.json": ["/procedures/workshop.yml"],
        f"./{folder}/vehicle.schema.json": ["/procedures/*/vehicle.yml"],
        f"./{folder}/record.schema.json": ["/records/*.yml"],
    }
    for vehicle in sorted(vehicles):
        found[f"./{folder}/{schema_of(vehicle)}"] = [f"/procedures/{vehicle}/!(vehicle).yml"]
    return found


def vscode_settings(vehicles: Iterable[str], folder: str = FOLDER) -> dict[str, object]:
    """What belongs into `.vscode/settings.json`; with version 1.2 of YAML `off` and `no` are words, as in a manual."""
    return {
        "yaml.schemas": yaml_schemas(vehicles, folder),
        "yaml.schemaStore.enable": False,
        "yaml.yamlVersion": "1.2",
        "yaml.format.enable": False,
    }
