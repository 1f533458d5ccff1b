"""Which schema holds for which files, as editors are told."""

from collections.abc import Iterable

#: The folder in a manual where the schemas for editors lie.
FOLDER = ".bayleaf"


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
        found[f"./{folder}/{vehicle}.schema.json"] = [f"/procedures/{vehicle}/!(vehicle).yml"]
    return found


def vscode_settings(vehicles: Iterable[str], folder: str = FOLDER) -> dict[str, object]:
    """What belongs into `.vscode/settings.json`; with version 1.2 of YAML `off` and `no` are words, as in a manual."""
    return {
        "yaml.schemas": yaml_schemas(vehicles, folder),
        "yaml.schemaStore.enable": False,
        "yaml.yamlVersion": "1.2",
        "yaml.format.enable": False,
    }
