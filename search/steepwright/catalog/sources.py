"""The list of sources as prose, for people; `catalogs/SOURCES.md` holds it."""

from __future__ import annotations

from collections.abc import Iterable

from steepwright.catalog.types import Source

_HEAD = """\
# Where the figures come from

The tables in `materials/` cite these sources by the name in bold, row by row. This page is
written from `materials/sources.csv`; a test compares the two. After a change there run
`python -m steepwright.catalog.sources` from a checkout.

This is no approval. Local codes and a structural engineer come first.
"""

_OWN = ("assumption", "trade")


def sources_text(sources: Iterable[Source]) -> str:
    """Return the readable list: sources that were read, recalled ones, and what has none."""
    known = tuple(sources)
    own = [s for s in known if s.id in _OWN]
    read = [s for s in known if not s.memory and s not in own]
    recalled = [s for s in known if s.memory and s not in own]
    parts = [
        _HEAD,
        "## Read\n",
        *_entries(read),
        "\n## Recalled, to be checked before relying on them\n",
        *_entries(recalled),
        "\n## No source: assumed, or common practice\n",
        *_entries(own),
    ]
    return "\n".join(parts) + "\n"


def _entries(sources: Iterable[Source]) -> Iterable[str]:
    for source in sorted(sources, key=lambda s: s.id):
        note = f" {source.note[0].upper()}{source.note[1:]}." if source.note else ""
        yield f"- **{source.id}**: {source.title}.{note}"


if __name__ == "__main__":
    from steepwright.catalog.materials import read_materials
    from steepwright.resources import catalogs_dir
    from steepwright.writing import write_whole

    write_whole(catalogs_dir() / "SOURCES.md", sources_text(read_materials().sources.values()))
