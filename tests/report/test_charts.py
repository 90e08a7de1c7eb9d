"""The charts' figures and the vendored script that draws them."""

from __future__ import annotations

import re
from pathlib import Path

import plotly.graph_objects as go
import plotly.offline

import steepwright.report as room
from steepwright.report.charts import CONFIG, MEASURES, lines_figure, stair_figure
from steepwright.report.views.rows import Row

ASSETS = Path(room.__file__).parent / "assets"


def test_plotly_accepts_the_figures_and_they_are_scatter_only() -> None:
    for figure in (stair_figure("EUR"), lines_figure()):
        assert {trace.type for trace in go.Figure(figure).data} == {"scatter"}
        assert go.Figure(figure).layout.template.layout.to_plotly_json() == {}


def test_every_measure_is_a_field_and_has_a_row() -> None:
    fields = set(Row.__dataclass_fields__)
    assert {measure.key for measure in MEASURES} <= fields
    assert list(lines_figure()["layout"]["yaxis"]["ticktext"]) == [m.label for m in MEASURES]


def test_no_button_could_send_anything() -> None:
    assert CONFIG["showSendToCloud"] is False
    assert CONFIG["displayModeBar"] is False


def bundle_version() -> str:
    head = (ASSETS / "plotly-basic.min.js").read_text(encoding="utf-8")[:400]
    found = re.search(r"plotly\.js \(basic - minified\) v(\d+\.\d+\.\d+)", head)
    assert found
    return found.group(1)


def test_the_vendored_script_is_the_one_that_the_library_speaks_to() -> None:
    # pyproject allows a library older than the script. What must agree is the figure: the library
    # accepts it (above) and the script draws it (browser tests). The two are one release here.
    ours, theirs = bundle_version(), plotly.offline.get_plotlyjs_version()
    assert ours == "4.1.1"
    assert int(theirs.split(".")[0]) <= int(ours.split(".")[0])
    text = (ASSETS / "plotly-basic.min.js").read_text(encoding="utf-8")
    assert f'version="{ours}"' in text or f'"{ours}"' in text


def test_the_script_comes_with_its_licence() -> None:
    licence = (ASSETS / "plotly-LICENSE.txt").read_text(encoding="utf-8")
    assert "MIT License" in licence
    assert "Plotly" in licence
