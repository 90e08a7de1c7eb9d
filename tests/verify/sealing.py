"""What tests share that change a certificate or its document and look whether it is noticed."""

from __future__ import annotations

from typing import Any

from steepwright.verify.checker import digest, verify_documents
from steepwright.verify.verdict import Verdict

Doc = dict[str, Any]


def sealed(certificate: Doc, document: Doc) -> Verdict:
    """Renew the hashes, so that only the checking itself is left to catch a change."""
    certificate["room_sha256"] = digest(document["room"])
    certificate["designs_sha256"] = digest(document["designs"])
    for part in certificate["parts"]:
        part["given_sha256"] = digest(part["given"])
    return verify_documents(certificate, document)


def columns(boxes: Doc) -> list[list[Any]]:
    """Return all that a level tells box by box."""
    places = [boxes[name] for name in ("row", "column", "width", "families")]
    return [*places, *boxes["closed"].values(), *boxes["least"].values()]
