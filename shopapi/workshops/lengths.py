"""Lengths at the door: millimetres as a number, or text as people write it, in the workshop's units."""

import math
from typing import Any, cast

from drf_spectacular.utils import extend_schema_field
from rest_framework import serializers

from shopapi.craft.measures import MeasureError, Unit, format_length, parse_length

LONGEST_MM = 20_000  # longer than any board, room or lorry of this trade


@extend_schema_field({"type": "number", "format": "double", "description": 'mm, or text such as 29 3/4" or 755 mm'})
class LengthField(serializers.Field):
    """A length in mm: above zero unless `zero_ok`, at most 20 m."""

    default_error_messages = {
        "unreadable": '{given} is not a length. Write it like 755, 29 3/4" or 2\' 5 3/4".',
        "not_above_zero": "It must be more than nothing.",
        "negative": "It cannot be less than nothing.",
        "too_long": "{given} is longer than {limit}; is the unit right?",
    }

    def __init__(self, *, zero_ok: bool = False, **kwargs: Any) -> None:
        self.zero_ok = zero_ok
        super().__init__(**kwargs)

    def to_internal_value(self, data: Any) -> float:
        unit = self._unit()
        if isinstance(data, str):
            try:
                mm = parse_length(data, unit, zero_ok=self.zero_ok)
            except MeasureError as error:
                raise serializers.ValidationError(str(error)) from error
        elif isinstance(data, int | float) and not isinstance(data, bool) and math.isfinite(data):
            mm = float(data)
        else:
            self.fail("unreadable", given=data)
        if mm < 0:
            self.fail("negative" if self.zero_ok else "not_above_zero")
        if mm == 0 and not self.zero_ok:
            self.fail("not_above_zero")
        if mm > LONGEST_MM:
            self.fail("too_long", given=format_length(mm, unit), limit=format_length(LONGEST_MM, unit))
        return mm

    def to_representation(self, value: float) -> float:
        return value

    def _unit(self) -> Unit:
        member = getattr(self.parent, "member", None)
        return cast(Unit, member.workshop.units) if member else "metric"
