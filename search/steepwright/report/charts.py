"""The two charts as figures without data or colours: the page fills both in.

What is chosen is no part of them: the page draws it over them, so that a pick leaves them alone.

Built with plotly's own classes, which refuse a property that its script would ignore. Scatter
traces only: they are drawn as SVG, print as lines and are all that the small bundle needs.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any


@dataclass(frozen=True, slots=True)
class Measure:
    """One row of the second chart: a field of `Row`, its name, and which end is better."""

    key: str
    label: str
    unit: str
    more_is_better: bool


MEASURES = (
    Measure("cost_cents", "Cost", "money", False),
    Measure("angle_deg", "Overhang angle", "deg", True),
    Measure("fall_space_mm", "Fall space", "mm", True),
    Measure("climbable_mm", "Climbable length", "mm", True),
    Measure("hold_positions", "Hold positions", "count", True),
    Measure("floor_run_mm", "Floor run", "mm", False),
    Measure("mass_kg", "Mass of the wall", "kg", False),
    Measure("heaviest_kg", "Heaviest piece", "kg", False),
    Measure("use", "Strength used", "share", False),
)

CONFIG = {
    "displayModeBar": False,
    "displaylogo": False,
    "showSendToCloud": False,
    "responsive": False,
    "scrollZoom": False,
    "doubleClick": False,
}
"""No button of the chart library is shown, and none of them could send data anywhere."""


def stair_figure(currency: str) -> dict[str, Any]:
    """Return cost against angle: beaten designs, the stair, and the designs."""
    import plotly.graph_objects as go

    figure = go.Figure(
        data=[
            go.Scatter(name="beaten", mode="markers", hoverinfo="skip", marker={"size": 4}),
            go.Scatter(name="stair", mode="lines", hoverinfo="skip", line={"shape": "vh"}),
            go.Scatter(name="designs", mode="markers"),
        ],
        layout=_layout(450, 52)
        | {
            "xaxis": {"title": {"text": "Overhang angle in degrees"}, "ticksuffix": "°"},
            "yaxis": {"title": {"text": f"Cost in {currency}"}, "separatethousands": False},
        },
    )
    return _plain(figure)


def lines_figure() -> dict[str, Any]:
    """Return one line per design through all measures, each row scaled to its own range."""
    import plotly.graph_objects as go

    rows = len(MEASURES)
    figure = go.Figure(
        data=[
            go.Scatter(name="left out", mode="lines", hoverinfo="skip"),
            go.Scatter(name="designs", mode="lines+markers"),
        ],
        layout=_layout(36 + 46 * rows, 12)
        | {
            "xaxis": {"range": [-0.04, 1.04], "showticklabels": False, "zeroline": False},
            "yaxis": {
                "tickvals": list(range(rows)),
                "ticktext": [measure.label for measure in MEASURES],
                "range": [rows - 0.5, -0.5],
                "zeroline": False,
            },
        },
    )
    return _plain(figure)


def _layout(height_px: int, bottom_px: int) -> dict[str, Any]:
    return {
        "height": height_px,
        "margin": {"l": 64, "r": 16, "t": 16, "b": bottom_px},
        "showlegend": False,
        "dragmode": False,
        "hovermode": "closest",
        "xaxis": {"fixedrange": True},
        "yaxis": {"fixedrange": True},
    }


def _plain(figure: Any) -> dict[str, Any]:
    figure.update_layout(template=None)
    figure.update_xaxes(fixedrange=True, automargin=True)
    figure.update_yaxes(fixedrange=True, automargin=True)
    plain: dict[str, Any] = figure.to_plotly_json()
    return plain
