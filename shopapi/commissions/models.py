"""What was ordered, by whom, for which home, and the parts it is made of."""

from django.core.validators import MaxValueValidator, MinValueValidator
from django.db import models
from django.db.models import Q

from shopapi.workshops.scoping import WorkshopOwned

MOST_OUT_OF_ONE_BLANK = 20


class Client(WorkshopOwned):
    """A person who orders; only the owner sees this."""

    name = models.CharField(max_length=120)
    email = models.EmailField(blank=True)
    phone = models.CharField(max_length=60, blank=True)
    address = models.TextField(max_length=500, blank=True)
    notes = models.TextField(max_length=4000, blank=True)

    def __str__(self) -> str:
        return self.name


class Commission(WorkshopOwned):
    """One piece, or set, made to order."""

    class Stage(models.TextChoices):
        ENQUIRY = "enquiry", "Enquiry"
        QUOTED = "quoted", "Quoted"
        AGREED = "agreed", "Agreed"
        MAKING = "making", "Making"
        FINISHING = "finishing", "Finishing"
        DELIVERED = "delivered", "Delivered"
        IN_USE = "in_use", "In use"

    title = models.CharField(max_length=120)
    piece = models.TextField(max_length=2000, blank=True)
    client = models.ForeignKey(Client, models.PROTECT, null=True, blank=True, related_name="commissions")
    home_place = models.CharField(max_length=120, blank=True)
    # Defaults: a heated home in a cold-winter climate; common practice, no source.
    home_rh_dry_pct = models.FloatField(default=30, validators=[MinValueValidator(5), MaxValueValidator(95)])
    home_rh_damp_pct = models.FloatField(default=55, validators=[MinValueValidator(5), MaxValueValidator(95)])
    home_temp_c = models.FloatField(default=21, validators=[MinValueValidator(0), MaxValueValidator(45)])
    wanted_on = models.DateField(null=True, blank=True)
    stage = models.CharField(max_length=12, choices=Stage, default=Stage.ENQUIRY)
    notes = models.TextField(max_length=8000, blank=True)
    price = models.DecimalField(
        max_digits=12, decimal_places=2, null=True, blank=True, validators=[MinValueValidator(0)]
    )

    class Meta:
        constraints = [
            models.CheckConstraint(
                condition=Q(home_rh_dry_pct__lte=models.F("home_rh_damp_pct")),
                name="dry_season_is_drier",
                violation_error_message="The dry season cannot be damper than the damp one.",
            )
        ]

    def __str__(self) -> str:
        return self.title


class Part(WorkshopOwned):
    """A finished component with its quantity; with strips, a panel glued from them."""

    class Grain(models.TextChoices):
        LENGTH = "length", "along the length"
        WIDTH = "width", "across, along the width"
        ANY = "any", "either way"

    class ShowFaces(models.TextChoices):
        BOTH = "both", "both faces show"
        ONE = "one", "one face shows"
        NONE = "none", "hidden"

    class Wish(models.TextChoices):
        FIGURE = "figure", "prized figure here"

    commission = models.ForeignKey(Commission, models.CASCADE, related_name="parts")
    name = models.CharField(max_length=120)
    quantity = models.PositiveIntegerField(default=1, validators=[MinValueValidator(1), MaxValueValidator(2000)])
    length_mm = models.FloatField()
    width_mm = models.FloatField()
    thickness_mm = models.FloatField()
    species = models.CharField(max_length=80)
    grain = models.CharField(max_length=10, choices=Grain, default=Grain.LENGTH)
    show_faces = models.CharField(max_length=10, choices=ShowFaces, default=ShowFaces.ONE)
    # 0: the solver chooses the number of strips and their widths, as sawn from strip_least_mm to strip_most_mm.
    strip_count = models.PositiveSmallIntegerField(default=1, validators=[MaxValueValidator(60)])
    strip_least_mm = models.FloatField(default=40)  # defaults: common practice, no source
    strip_most_mm = models.FloatField(default=130)
    # Tapered or curved pieces that overlap: so many are sawn out of one blank of this finished size.
    blank_holds = models.PositiveSmallIntegerField(
        default=1, validators=[MinValueValidator(1), MaxValueValidator(MOST_OUT_OF_ONE_BLANK)]
    )
    blank_length_mm = models.FloatField(null=True, blank=True)
    blank_width_mm = models.FloatField(null=True, blank=True)
    together = models.CharField(max_length=60, blank=True)  # pieces of one group come from like wood
    wish = models.CharField(max_length=10, choices=Wish, blank=True)
    cut_count = models.PositiveIntegerField(default=0, editable=False)  # finished parts whose pieces are all sawn
    note = models.CharField(max_length=500, blank=True)
    position = models.FloatField(default=0)

    class Meta:
        constraints = [
            models.CheckConstraint(
                condition=Q(length_mm__gt=0, width_mm__gt=0, thickness_mm__gt=0),
                name="part_has_size",
                violation_error_message="Length, width and thickness must be more than nothing.",
            )
        ]

    def __str__(self) -> str:
        return self.name

    @property
    def is_panel(self) -> bool:
        return self.strip_count != 1
