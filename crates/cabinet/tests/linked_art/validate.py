"""Holds documents against the published JSON Schema of Linked Art 1.0 (object.json, core.json; CC BY 4.0).

python3 validate.py <folder of the schema> <documents...>: says how many are valid, and what is wrong with the others.
Wants the packages jsonschema and referencing.
"""

import json
import pathlib
import sys

from jsonschema import Draft202012Validator, FormatChecker
from referencing import Registry, Resource

folder = pathlib.Path(sys.argv[1])
registry = Registry()
for name in ("core.json", "object.json"):
    schema = json.loads((folder / name).read_text())
    resource = Resource.from_contents(schema)
    registry = registry.with_resources([(name, resource), (schema.get("$id", name), resource)])
schema = json.loads((folder / "object.json").read_text())
validator = Draft202012Validator(schema, registry=registry, format_checker=FormatChecker())

wrong = 0
for path in sys.argv[2:]:
    errors = list(validator.iter_errors(json.loads(pathlib.Path(path).read_text())))
    for error in errors:
        print(f"{path}: {'/'.join(map(str, error.absolute_path))}: {error.message[:300]}")
    wrong += bool(errors)
# A document that must not pass: a value that is a text.
bad = {"@context": "https://linked.art/ns/v1/linked-art.json", "id": "urn:x:y", "type": "HumanMadeObject", "_label": "x"}
bad["dimension"] = [{"type": "Dimension", "value": "74"}]
if not list(validator.iter_errors(bad)):
    sys.exit("The schema lets a wrong document pass: it is not the one that is meant.")
print(f"{len(sys.argv) - 2 - wrong} of {len(sys.argv) - 2} documents are valid Linked Art.")
sys.exit(wrong > 0 or len(sys.argv) < 3)
