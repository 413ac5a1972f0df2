"""Money: an amount in a currency, per something. It is never changed into another currency."""

from __future__ import annotations

import re
from dataclasses import dataclass

from bermwright.base.errors import QuantityError

_TEXT = re.compile(r"(?P<amount>\d+(?:\.\d+)?)\s+(?P<currency>[A-Z]{3})(?:\s*/\s*(?P<per>\S.*))?", re.ASCII)
_TURNED = re.compile(r"(?P<currency>[A-Z]{3})\s*(?P<amount>\d+(?:\.\d+)?)(?P<per>.*)", re.ASCII)
_SIGNS = {"€": "EUR", "£": "GBP", "$": "USD (or CAD, AUD, ...)", "kr": "NOK (or SEK, DKK)", "zł": "PLN"}
_ADVICE = 'Write the amount, the currency in three capital letters and what it buys: "12.50 EUR/m3".'


@dataclass(frozen=True, slots=True)
class Money:
    """An amount of money, and what it buys ("m3", "kg", "piece"; empty for a sum)."""

    amount: float
    currency: str
    per: str = ""

    def __str__(self) -> str:
        return f"{self.amount:.2f} {self.currency}" + (f"/{self.per}" if self.per else "")


def parse_money(text: str) -> Money:
    """Read `12.50 EUR/m3`.

    >>> parse_money("12.50 EUR/m3")
    Money(amount=12.5, currency='EUR', per='m3')
    """
    found = _TEXT.fullmatch(text.strip())
    if found is None:
        raise QuantityError(f'"{text.strip()}" is not a price. {_hint(text.strip())}')
    return Money(float(found["amount"]), found["currency"], (found["per"] or "").strip())


def _hint(text: str) -> str:
    turned = _TURNED.fullmatch(text)
    if turned:
        return f'The amount comes first: "{turned["amount"]} {turned["currency"]}{turned["per"]}".'
    if re.search(r"\d,\d", text):
        return f"Write a point for the decimals and no other separator. {_ADVICE}"
    sign = next((sign for sign in _SIGNS if sign in text), None)
    if sign:
        return f"Instead of {sign} write {_SIGNS[sign]}. {_ADVICE}"
    return _ADVICE
