"""The report: plain view records, then drawings, charts and one page that needs no network."""

from steepwright.report.files import write_outputs
from steepwright.report.page import render_page

__all__ = ["render_page", "write_outputs"]
