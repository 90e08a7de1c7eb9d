"""Pydantic's complaints about a room or design file, turned into findings in plain words."""

from __future__ import annotations

import typing
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from typing import Any

from pydantic import BaseModel, ValidationError

from steepwright.findings import Finding, nearest
from steepwright.room.lines import KeyPath, line_of
from steepwright.room.syntax import Document, show
from steepwright.room.told import in_room_units


@dataclass(frozen=True, slots=True)
class Source:
    """A file that was read: its name, its data, and where each key stands.

    With `inches` its findings are told in feet and inches.
    """

    file: str
    document: Document = field(default_factory=lambda: Document({}))
    prefix: str = "room"
    inches: bool = False

    def finding(self, path: KeyPath, code: str, message: str, **more: str) -> Finding:
        """Return an error at a key; `more` takes seen, expected and next_step."""
        line = line_of(self.document.lines, path)
        name = f"{self.prefix}-{code}"
        found = Finding(name, "error", message, self.file, line, key_text(path), **more)
        return in_room_units(found) if self.inches else found


def says_inches(data: Mapping[str, Any]) -> bool:
    """Return whether a room file's data ask for feet and inches."""
    room = data.get("room")
    return isinstance(room, dict) and room.get("units") == "inch"


def key_text(path: KeyPath) -> str:
    """Return a key path as the builder would say it: the second beam is ``beams[2]``."""
    text = ""
    for part in path:
        if isinstance(part, int):
            text += f"[{part + 1}]"
        else:
            text += f".{part}" if text else part
    return text


def model_findings(
    error: ValidationError, model: type[BaseModel], source: Source
) -> tuple[Finding, ...]:
    """Return one finding for each thing pydantic found wrong.

    A key that is not known but like a missing one counts once, as a misspelling; a missing key
    whose line was set aside as a syntax mistake does not count again.
    """
    errors = error.errors(include_url=False)
    unknown = {e["loc"]: _nearest_key(e["loc"], model) for e in errors if _is(e, "extra")}
    meant = {(*loc[:-1], word) for loc, word in unknown.items() if word}
    found: list[Finding] = []
    for item in errors:
        path: KeyPath = item["loc"]
        if _is(item, "missing"):
            if path not in meant and path[-1] not in source.document.set_aside:
                found.append(_missing(path, model, source))
        elif _is(item, "extra"):
            found.append(_unknown(path, item["input"], unknown[path], model, source))
        else:
            found.append(_bad_value(path, item, source))
    return tuple(found)


def _is(item: Mapping[str, Any], start: str) -> bool:
    return str(item["type"]).startswith(start)


def _missing(path: KeyPath, model: type[BaseModel], source: Source) -> Finding:
    key, table = str(path[-1]), key_text(path[:-1])
    inner = _model_at(path, model)
    if inner is not None:
        say = f"the table [{key}] is missing"
        step = f"Add [{key}] with {_and(_required(inner))}."
    else:
        say = f"{key} is missing" + (f" in [{table}]" if table else "")
        step = f"Add a line {key} = ... there."
    return source.finding(path, "missing-key", say, expected=_meaning(path, model), next_step=step)


def _unknown(
    path: KeyPath, value: object, word: str, model: type[BaseModel], source: Source
) -> Finding:
    table = _model_at(path[:-1], model)
    known = sorted(table.model_fields) if table else []
    step = f"Did you mean {word}?" if word else ""
    return source.finding(
        path,
        "unknown-key",
        f"{path[-1]} is not a key that is known here",
        seen=show(value),
        expected=word or f"one of {', '.join(known)}",
        next_step=step or "Correct or remove it.",
    )


def _bad_value(path: KeyPath, item: Mapping[str, Any], source: Source) -> Finding:
    context = item.get("ctx", {})
    if "say" in context:
        return source.finding(
            path,
            item["type"],
            context["say"],
            seen=show(item["input"]),
            expected=context["expected"],
            next_step=context["step"],
        )
    key, seen = key_text(path), show(item["input"])
    if _is(item, "list"):
        say, shape = "this is not a list of tables", f"[[{key}]] for each one"
    else:
        shape = f"[{key}] with its keys below" if isinstance(path[-1], str) else "a table"
        say = "this is not a table"
    step = f"Write {shape}."
    return source.finding(path, "wrong-shape", say, seen=seen, expected=shape, next_step=step)


def _nearest_key(path: KeyPath, model: type[BaseModel]) -> str:
    table = _model_at(path[:-1], model)
    return nearest(str(path[-1]), table.model_fields) if table else ""


def _model_at(path: KeyPath, model: type[BaseModel]) -> type[BaseModel] | None:
    """Return the model of the table at a path; None when a plain value stands there."""
    here: type[BaseModel] | None = model
    for part in path:
        if isinstance(part, int):
            continue
        if here is None or part not in here.model_fields:
            return None
        here = _table_type(here.model_fields[part].annotation)
    return here


def _table_type(annotation: Any) -> type[BaseModel] | None:
    inner = typing.get_args(annotation)[0] if typing.get_origin(annotation) is list else annotation
    return inner if isinstance(inner, type) and issubclass(inner, BaseModel) else None


def _meaning(path: KeyPath, model: type[BaseModel]) -> str:
    table = _model_at(path[:-1], model)
    text = table.model_fields[str(path[-1])].description if table else ""
    if not text and (inner := _model_at(path, model)):
        text = (inner.__doc__ or "").split("\n")[0]
    return (text or "").rstrip(".")


def _required(model: type[BaseModel]) -> list[str]:
    return [name for name, info in model.model_fields.items() if info.is_required()]


def _and(words: Iterable[str]) -> str:
    *most, last = words
    return f"{', '.join(most)} and {last}" if most else last
