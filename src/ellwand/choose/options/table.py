"""What all tables of the sheet share."""

from __future__ import annotations

from pydantic import BaseModel, ConfigDict, PlainValidator

from ellwand.choose.fields import word


class Table(BaseModel):
    """One table of the sheet: unknown keys are refused."""

    model_config = ConfigDict(extra="forbid", frozen=True)


def choice(*words: str) -> PlainValidator:
    """Reads one of the words."""
    return PlainValidator(word(*words))
