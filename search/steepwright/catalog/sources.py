"""The list of sources as prose, for people; `catalogs/SOURCES.md` holds it."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable

from steepwright.catalog.types import Materials, Source

_HEAD = """\
# Where the figures come from

Written from `materials/sources.csv` and the tables that cite it; a test compares the two.
After a change run `python -m steepwright.catalog.sources` from a checkout.

This is no approval. Local codes and a structural engineer come first.
"""

_OWN = ("assumption", "trade")


def sources_text(materials: Materials) -> str:
    """Return the readable list: read, recalled, assumed; and what rests on each."""
    uses = _uses(materials)
    known = materials.sources.values()
    own = [s for s in known if s.id in _OWN]
    read = [s for s in known if not s.memory and s not in own]
    recalled = [s for s in known if s.memory and s not in own]
    parts = [
        _HEAD,
        "## Read\n",
        *_entries(read, uses),
        "\n## Recalled, to be checked before relying on them\n",
        *_entries(recalled, uses),
        "\n## No source: assumed, or common practice\n",
        *_entries(own, uses),
    ]
    return "\n".join(parts) + "\n"


def _entries(sources: Iterable[Source], uses: dict[str, list[str]]) -> Iterable[str]:
    for source in sorted(sources, key=lambda s: s.id):
        note = f" {source.note[0].upper()}{source.note[1:]}." if source.note else ""
        yield f"- **{source.id}**: {source.title}.{note} Used for: {', '.join(uses[source.id])}."


def _uses(materials: Materials) -> dict[str, list[str]]:
    uses: dict[str, list[str]] = defaultdict(list)
    if materials.timber_classes:
        for source in sorted({c.source for c in materials.timber_classes.values()}):
            uses[source].append("strength classes")
    for panel in materials.panels.values():
        label = f"{panel.kind} panels"
        if label not in uses[panel.source]:
            uses[panel.source].append(label)
    for key, source in sorted(materials.factors.sources.items()):
        uses[source].append(f"`{key}`")
    return uses


if __name__ == "__main__":
    from steepwright.catalog.materials import read_materials
    from steepwright.resources import catalogs_dir, write_whole

    write_whole(catalogs_dir() / "SOURCES.md", sources_text(read_materials()))
