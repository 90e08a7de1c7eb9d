"""The page: one HTML file with everything in it, the same bytes for the same document."""

from __future__ import annotations

import json
from functools import cache
from pathlib import Path
from typing import Any

import jinja2

from steepwright.imperial import pounds, printed
from steepwright.report.data import design_view, page_data, shown
from steepwright.report.packing import pack
from steepwright.report.views.answer import answer_of, change_lines
from steepwright.report.words import Document, degrees, falls, in_inches, percent, stop
from steepwright.units import money

_HERE = Path(__file__).resolve().parent


def render_page(document: Document) -> str:
    """Return the page of one document (the form of designs.json)."""
    views = tuple(design_view(document, design) for design in document["designs"])
    answer = answer_of(document)
    data = page_data(document, views, answer)
    return (
        _environment(document)
        .get_template("page.html")
        .render(
            document=document,
            room=document["room"],
            answer=answer,
            changes=change_lines(document),
            views=views,
            data=script_json(pack(data)),
            style=_thin(_asset("page.css")),
            script="\n".join(_thin(_asset(f"js/{path.name}")) for path in script_files()),
            plotly=_asset("plotly-basic.min.js"),
        )
    )


def script_files() -> list[Path]:
    """Return the page's scripts in the order in which they run."""
    return sorted((_HERE / "assets" / "js").glob("*.js"))


def script_json(value: Any) -> str:
    """Return JSON that can stand inside a script element: no ``<``, so no end tag."""
    text = json.dumps(value, ensure_ascii=False, separators=(",", ":"), allow_nan=False)
    return text.replace("<", "\\u003c").replace("\u2028", "\\u2028").replace("\u2029", "\\u2029")


@cache
def _asset(name: str) -> str:
    text = (_HERE / "assets" / name).read_text(encoding="utf-8")
    return text.replace("</script", "<\\/script")


def _thin(text: str) -> str:
    """Leave out indents, empty lines and lines of comment; no text in our files spans lines."""
    lines = (line.strip() for line in text.splitlines())
    return "\n".join(line for line in lines if line and not line.startswith("//"))


def _environment(document: Document) -> jinja2.Environment:
    def told(value: Any) -> Any:
        return shown(document, value) if type(value) is str else value

    inches = in_inches(document)
    environment = jinja2.Environment(
        finalize=told,
        loader=jinja2.FileSystemLoader(_HERE / "templates"),
        autoescape=True,
        undefined=jinja2.StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
        keep_trailing_newline=True,
    )
    environment.filters |= {
        "money": money,
        "degrees": degrees,
        "percent": percent,
        "falls": falls,
        "stop": stop,
        "size": printed if inches else str,
        "mass": pounds if inches else float,
    }
    environment.globals |= {
        "inches": inches,
        "in_mm": "" if inches else ", mm",
        "mass_unit": "lb" if inches else "kg",
    }
    return environment
