"""Wood names at the door: any name the wood table knows, stored under the table's own name."""

from typing import Any

from rest_framework import serializers

from shopapi.craft.species import UnknownSpeciesError, species


class SpeciesField(serializers.CharField):
    """A species by its trade name or an alias; an unknown one is refused with the near matches."""

    def __init__(self, **kwargs: Any) -> None:
        super().__init__(max_length=80, **kwargs)

    def to_internal_value(self, data: Any) -> str:
        try:
            return species(super().to_internal_value(data)).name
        except UnknownSpeciesError as error:
            raise serializers.ValidationError(str(error)) from error
