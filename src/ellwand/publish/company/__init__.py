"""A company's papers: the report, and labels for the bundles of cut pieces."""

from __future__ import annotations

from ellwand.publish.company.labels import labels_pdf
from ellwand.publish.company.lays import lay_pdf
from ellwand.publish.company.report import report_md, report_pdf

__all__ = ["labels_pdf", "lay_pdf", "report_md", "report_pdf"]
