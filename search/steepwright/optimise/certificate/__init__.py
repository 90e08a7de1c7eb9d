"""The certificate: boxes of lengths in which every family is shown to hold nothing cheaper."""

from __future__ import annotations

from steepwright.optimise.certificate.document import certificate_document

__all__ = ["certificate_document"]
