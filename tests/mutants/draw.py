"""Draw a sample of the mutants that cosmic-ray makes (needs `pip install cosmic-ray`).

    python tests/mutants/draw.py 400 1 > out/sample.json        # how many, seed

Each module gets its share by its number of statements, at least three; a place in it is drawn first
and then one of its mutants, since eleven operators can stand for each of `+`. Left out are mutants
that can't differ: annotations, which are never evaluated, caches taken away and the
`slots` of records.
"""

from __future__ import annotations

import ast
import json
import random
import sys
from pathlib import Path

from cosmic_ray import plugins
from cosmic_ray.commands.init import _all_work_items
from cosmic_ray.mutating import mutate_code
from cosmic_ray.work_item import MutationSpec

SOURCE = Path(__file__).resolve().parents[2] / "search" / "steepwright"
AREAS = ("geometry", "structure", "cutting", "pricing", "optimise/bounds.py")


def modules() -> list[Path]:
    """Return the modules whose tests are tested."""
    found = {p for area in AREAS for p in [SOURCE / area, *(SOURCE / area).glob("*.py")]}
    return sorted(p for p in found if p.suffix == ".py" and p.name != "__init__.py")


class Bare(ast.NodeTransformer):
    """Takes away what changes no answer."""

    def visit_FunctionDef(self, node: ast.FunctionDef) -> ast.AST:
        self.generic_visit(node)
        node.returns = None
        node.decorator_list = [d for d in node.decorator_list if "cache" not in ast.unparse(d)]
        return node

    def visit_ClassDef(self, node: ast.ClassDef) -> ast.AST:
        self.generic_visit(node)
        for mark in node.decorator_list:
            if isinstance(mark, ast.Call):
                mark.keywords = [k for k in mark.keywords if k.arg != "slots"]
        return node

    def visit_arg(self, node: ast.arg) -> ast.AST:
        node.annotation = None
        return node

    def visit_AnnAssign(self, node: ast.AnnAssign) -> ast.AST:
        self.generic_visit(node)
        node.annotation = ast.Constant(None)
        return node


def meaning(code: str) -> str:
    """Return a text that is equal for two modules that can't answer differently."""
    return ast.dump(Bare().visit(ast.parse(code)))


def statements(code: str) -> int:
    return sum(isinstance(node, ast.stmt) for node in ast.walk(ast.parse(code)))


def drawn(path: Path, count: int, dice: random.Random) -> list[dict[str, object]]:
    """Draw mutants of one module."""
    code = path.read_text(encoding="utf-8")
    plain = meaning(code)
    places: dict[tuple[object, ...], list[MutationSpec]] = {}
    for one in _all_work_items([path], {}):
        item = one.mutations[0]
        kind = item.operator_name.partition("_")[0]
        places.setdefault((item.start_pos, item.end_pos, kind), []).append(item)
    items = [dice.choice(some) for some in places.values()]
    dice.shuffle(items)
    taken: list[dict[str, object]] = []
    for item in items:
        if len(taken) == count:
            break
        operator = plugins.get_operator(item.operator_name)()
        mutant = mutate_code(code, operator, item.occurrence)
        try:
            same = mutant is None or meaning(mutant) == plain
        except SyntaxError:
            same = True
        if not same:
            taken.append({
                "module": path.relative_to(SOURCE).as_posix(), "line": item.start_pos[0],
                "what": item.operator_name.removeprefix("core/"), "code": mutant,
            })  # fmt: skip
    return taken


def main() -> None:
    """Write the sample to the standard output."""
    count, seed = int(sys.argv[1]), int(sys.argv[2])
    sizes = {path: statements(path.read_text(encoding="utf-8")) for path in modules()}
    whole, dice = sum(sizes.values()), random.Random(seed)
    sample = [
        one for path, size in sizes.items()
        for one in drawn(path, max(3, round(count * size / whole)), dice)
    ]  # fmt: skip
    dice.shuffle(sample)
    json.dump(sample, sys.stdout)
    print(f"{len(sample)} mutants of {len(sizes)} modules", file=sys.stderr)


if __name__ == "__main__":
    main()
