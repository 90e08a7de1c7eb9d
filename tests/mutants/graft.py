"""Puts a mutant's changed functions into modules that are loaded, where that is all it changes."""

from __future__ import annotations

from types import CodeType, FunctionType, ModuleType
from typing import Any

_IS_FUNCTION = 0x2  # inspect.CO_NEWLOCALS and a body of its own: no class body


Change = tuple[tuple[str, ...], CodeType]


def changed_functions(
    old: CodeType, new: CodeType
) -> list[tuple[tuple[str, ...], CodeType]] | None:
    """Return where functions differ, and their new code; None when more than functions differs."""
    pairs = list(zip(old.co_consts, new.co_consts, strict=False))
    same_body = (
        len(old.co_consts) == len(new.co_consts)
        and old.co_code == new.co_code
        and old.co_names == new.co_names
        and all(isinstance(a, CodeType) == isinstance(b, CodeType) for a, b in pairs)
        and all(isinstance(a, CodeType) or (a == b and type(a) is type(b)) for a, b in pairs)
    )
    if not same_body:
        return None
    found: list[Change] = []
    for one, other in pairs:
        if not isinstance(one, CodeType) or one == other:
            continue
        if one.co_flags & _IS_FUNCTION:
            found.append(((one.co_name,), other))
            continue
        deeper = changed_functions(one, other)
        if deeper is None:
            return None
        found += [((one.co_name, *path), code) for path, code in deeper]
    return found


def _function(holder: Any, path: tuple[str, ...]) -> FunctionType | None:
    for name in path:
        holder = vars(holder).get(name)
        for inner in ("__wrapped__", "fget", "__func__", "func"):
            if not isinstance(holder, FunctionType | type):
                holder = getattr(holder, inner, holder)
        while isinstance(holder, FunctionType) and hasattr(holder, "__wrapped__"):
            holder = holder.__wrapped__
        if holder is None:
            return None
    return holder if isinstance(holder, FunctionType) else None


def graft(module: ModuleType, original: str, mutant: str) -> bool:
    """Change a loaded module into its mutant; tell whether that could be done."""
    file = str(module.__file__)
    changes = changed_functions(*(compile(text, file, "exec") for text in (original, mutant)))
    if not changes:
        return False
    targets = [(_function(module, path), code) for path, code in changes]
    if any(f is None or f.__code__.co_freevars != code.co_freevars for f, code in targets):
        return False
    for function, code in targets:
        assert function is not None
        function.__code__ = code
    return True
