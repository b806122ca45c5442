"""What a command prints for a program, held against its published schema, and against keys that it lacks.

Invariant: read from the schema files alone; `jsonschema` judges.
"""

from __future__ import annotations

import json
from collections.abc import Iterator
from functools import cache
from pathlib import Path
from typing import Any

from jsonschema import Draft202012Validator

SCHEMAS = Path(__file__).resolve().parents[2] / "bench" / "data" / "schemas"


@cache
def published(name: str) -> Draft202012Validator:
    """The schema as a program meets it: open for keys that come later."""
    schema = json.loads((SCHEMAS / f"{name}.json").read_text(encoding="utf-8"))
    Draft202012Validator.check_schema(schema)
    return Draft202012Validator(schema)


@cache
def closed(name: str) -> Draft202012Validator:
    """The same without room for a key that it does not name."""
    return Draft202012Validator(shut(published(name).schema))


def shut(schema: Any) -> Any:
    """A schema in which every object has the keys named and no other."""
    if isinstance(schema, list):
        return [shut(one) for one in schema]
    if not isinstance(schema, dict):
        return schema
    more = {"additionalProperties": False} if isinstance(schema.get("properties"), dict) else {}
    return {**more, **{key: shut(one) for key, one in schema.items()}}


def unlike(name: str, said: Any) -> list[str]:
    """Where something printed is not as its schema promises, or holds a key of which it says nothing."""
    return [f"{one.json_path}: {one.message[:200]}" for one in closed(name).iter_errors(said)]


def spoiled(said: Any, at: Any = None, path: str = "") -> Iterator[tuple[str, Any]]:
    """The same with one key gone, or a text where a number was and a number where a text was, once for each
    place that has a name of its own.
    """
    at, seen = said if at is None else at, set()
    for key, one in list(at.items() if isinstance(at, dict) else enumerate(at)):
        name = f"{path}.{key}" if isinstance(at, dict) else f"{path}[]"
        if isinstance(at, dict):
            del at[key]
            yield f"{name} gone", said
        if isinstance(one, dict | list):
            at[key] = one
            if name not in seen:
                yield from spoiled(said, one, name)
        elif one is not None:
            at[key] = 7 if isinstance(one, str) else "seven"
            yield f"{name} of another kind", said
        at[key] = one
        seen.add(name)
