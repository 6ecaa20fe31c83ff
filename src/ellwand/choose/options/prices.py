"""What things cost."""

from __future__ import annotations

from typing import Annotated

from pydantic import Field, PlainValidator

from ellwand.choose.fields import number, text
from ellwand.choose.options.table import Table
from ellwand.language import N_

MOST = 1e6

Price = Annotated[float | None, PlainValidator(number(0, MOST, nothing=True))]


class PricesTable(Table):
    """[prices]: what the maker pays, for the bill; what is left out is told without a price.

    Lengths are metres, or yards where the wearer's `unit` is `"in"`.  The cloth has its price in its own table.
    """

    currency: Annotated[str | None, PlainValidator(text)] = Field(None, description=N_("written behind every sum"))
    thread: Price = Field(None, description=N_("for a reel of 100 m, or of 100 yd"))
    band: Price = Field(None, description=N_("for a metre, or a yard, of band that is bought"))
    lace: Price = Field(None, description=N_("for a metre, or a yard, of lace, cord or tape"))
    button: Price = Field(None, description=N_("for one"))
    toggle: Price = Field(None, description=N_("for one"))
    hook: Price = Field(None, description=N_("for one with its eye"))
    pin: Price = Field(None, description=N_("for one"))
    hour: Price = Field(None, description=N_("for an hour of work"))
