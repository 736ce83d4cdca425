"""JSON Schema of the project file, generated from the model.

`python -m winebench.store.schema` writes it into resources/schema/.
"""

from __future__ import annotations

import inspect
import json
from pathlib import Path
from typing import Any

import msgspec
from msgspec import inspect as model

from winebench.model.project import Project
from winebench.places import resources
from winebench.store.migrations import NEWEST
from winebench.store.project_file import FORMAT
from winebench.store.quantities import as_written, example, is_quantity, may_be_number

_DIALECT = "https://json-schema.org/draft/2020-12/schema"
Schema = dict[str, Any]


def schema_path() -> Path:
    """Return where the committed schema of the newest version lies."""
    return resources() / "schema" / f"winebench-{NEWEST}.schema.json"


def project_schema() -> Schema:
    """Return the schema of the newest project file, as plain values."""
    parts: dict[str, Schema] = {}
    _reference(Project, parts)
    top = parts.pop("Project")
    top["properties"] |= {"format": {"const": FORMAT}, "version": {"const": NEWEST}}
    top["required"] = sorted([*top["required"], "format", "version"])
    return {"$schema": _DIALECT, "title": "Winebench project", "$defs": parts} | top


def schema_text() -> str:
    """Return the schema as the committed file has it."""
    return json.dumps(project_schema(), indent=2, sort_keys=True, ensure_ascii=False) + "\n"


def _reference(struct: type, parts: dict[str, Schema]) -> Schema:
    name = struct.__name__
    if name not in parts:
        parts[name] = {}
        parts[name] = _object(struct, parts)
    return {"$ref": f"#/$defs/{name}"}


def _object(struct: type, parts: dict[str, Schema]) -> Schema:
    about = model.type_info(struct)
    assert isinstance(about, model.StructType)
    properties: dict[str, Schema] = {}
    required = []
    if about.tag_field:
        properties[about.tag_field] = {"const": about.tag}
        required.append(about.tag_field)
    for field in about.fields:
        properties[field.encode_name] = _value(field.type, parts) | _default(field)
        if field.required:
            required.append(field.encode_name)
    return {
        "type": "object",
        "description": (inspect.getdoc(struct) or "").splitlines()[0],
        "properties": properties,
        "required": sorted(required),
        "additionalProperties": False,
    }


def _default(field: model.Field) -> Schema:
    if field.default is msgspec.NODEFAULT:
        return {}
    return {"default": msgspec.to_builtins(field.default, enc_hook=as_written)}


def _value(kind: model.Type, parts: dict[str, Schema]) -> Schema:
    if isinstance(kind, model.StructType):
        return _reference(kind.cls, parts)
    if isinstance(kind, model.UnionType):
        return {"anyOf": [_value(each, parts) for each in kind.types]}
    if isinstance(kind, model.VarTupleType):
        return {"type": "array", "items": _value(kind.item_type, parts)}
    if isinstance(kind, model.LiteralType):
        return {"enum": list(kind.values)}
    if isinstance(kind, model.CustomType) and is_quantity(kind.cls):
        title = kind.cls.__name__
        written = ["string", "number"] if may_be_number(kind.cls) else "string"
        return {"type": written, "title": title, "description": f"Such as {example(kind.cls)}"}
    return dict(_PLAIN[type(kind)])


_PLAIN: dict[type, Schema] = {
    model.StrType: {"type": "string"},
    model.FloatType: {"type": "number"},
    model.IntType: {"type": "integer"},
    model.BoolType: {"type": "boolean"},
    model.NoneType: {"type": "null"},
    model.DateType: {"type": "string", "format": "date"},
    model.DateTimeType: {
        "type": "string",
        "format": "date-time",
        "description": "Local time with its offset, such as 2026-10-09T18:30:00+02:00",
    },
}


def main() -> None:
    """Write the schema of the newest version."""
    path = schema_path()
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_text(schema_text(), "utf-8", newline="\n")
    print(f"Wrote {path.name}.")


if __name__ == "__main__":
    main()
