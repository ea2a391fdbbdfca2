"""At the dealer: trips to buy wood for a commission, and the boards seen there."""

from django.core.validators import MaxValueValidator, MinValueValidator
from django.db import models
from django.db.models import Q

from shopapi.boards.models import Board
from shopapi.commissions.models import Commission
from shopapi.workshops.scoping import WorkshopOwned


class BuyingTrip(WorkshopOwned):
    """One visit to a dealer to buy wood for a commission."""

    commission = models.ForeignKey(Commission, models.CASCADE, related_name="buying_trips")
    dealer = models.CharField(max_length=120, blank=True)
    opened_on = models.DateField()
    note = models.TextField(max_length=500, blank=True)
    closed_at = models.DateTimeField(null=True, blank=True)

    def __str__(self) -> str:
        return f"{self.dealer or 'dealer'} on {self.opened_on}"


class Offer(WorkshopOwned):
    """A board seen at the dealer's; once bought, it is a board of the rack."""

    trip = models.ForeignKey(BuyingTrip, models.CASCADE, related_name="offers")
    tag = models.CharField(max_length=20, blank=True)
    species = models.CharField(max_length=80)
    length_mm = models.FloatField()
    width_mm = models.FloatField()
    thickness_mm = models.FloatField()
    thickness_quarters = models.PositiveSmallIntegerField(
        null=True, blank=True, validators=[MinValueValidator(2), MaxValueValidator(32)]
    )
    price = models.DecimalField(
        max_digits=12, decimal_places=2, null=True, blank=True, validators=[MinValueValidator(0)]
    )
    note = models.CharField(max_length=500, blank=True)
    bought = models.BooleanField(default=False)
    board = models.ForeignKey(Board, models.SET_NULL, null=True, blank=True, related_name="offers")

    class Meta:
        constraints = [
            models.CheckConstraint(
                condition=Q(length_mm__gt=0, width_mm__gt=0, thickness_mm__gt=0),
                name="offer_has_size",
                violation_error_message="Length, width and thickness must be more than nothing.",
            )
        ]

    def __str__(self) -> str:
        return self.tag or self.species
