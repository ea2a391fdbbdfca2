"""The tenant, its members, and how they get in."""

import uuid

from django.conf import settings
from django.core.validators import MaxValueValidator, MinValueValidator
from django.db import models
from django.utils import timezone


class Workshop(models.Model):
    """The business that owns the data, with what it prints and how it saws."""

    class Units(models.TextChoices):
        INCH = "inch", "inches"
        METRIC = "metric", "millimetres"

    class Paper(models.TextChoices):
        LETTER = "letter", "Letter"
        A4 = "a4", "A4"

    id = models.UUIDField(primary_key=True, default=uuid.uuid4, editable=False)
    revision = models.PositiveIntegerField(default=1, editable=False)
    change_seq = models.PositiveBigIntegerField(default=0, editable=False)  # the feed's counter, one per workshop
    name = models.CharField(max_length=120)
    maker_name = models.CharField(max_length=120, blank=True)
    phone = models.CharField(max_length=60, blank=True)
    email = models.EmailField(blank=True)
    address = models.TextField(max_length=500, blank=True)
    website = models.CharField(max_length=200, blank=True)
    units = models.CharField(max_length=10, choices=Units, default=Units.INCH)
    inch_denominator = models.PositiveSmallIntegerField(choices=[(16, "1/16"), (32, "1/32")], default=16)
    paper = models.CharField(max_length=10, choices=Paper, default=Paper.LETTER)
    currency = models.CharField(max_length=3, default="USD")
    time_zone = models.CharField(max_length=60, default="UTC")
    # Defaults: common practice, no source; the maker sets their own.
    kerf_mm = models.FloatField(default=3.2, validators=[MinValueValidator(0)])
    end_trim_mm = models.FloatField(default=25, validators=[MinValueValidator(0)])
    extra_length_mm = models.FloatField(default=25, validators=[MinValueValidator(0)])
    extra_width_mm = models.FloatField(default=6, validators=[MinValueValidator(0)])
    extra_thickness_mm = models.FloatField(default=5, validators=[MinValueValidator(0)])
    joint_loss_mm = models.FloatField(default=3, validators=[MinValueValidator(0)])
    # What is at least this long and wide goes back into the rack.
    least_offcut_length_mm = models.FloatField(default=400, validators=[MinValueValidator(0)])
    least_offcut_width_mm = models.FloatField(default=60, validators=[MinValueValidator(0)])
    # Wood bought beyond what the blanks measure: knots, ends, kerfs. Common practice, no source.
    waste_pct = models.FloatField(default=25, validators=[MinValueValidator(0), MaxValueValidator(300)])
    created_at = models.DateTimeField(auto_now_add=True)
    updated_at = models.DateTimeField(auto_now=True)

    def __str__(self) -> str:
        return self.name


class Member(models.Model):
    class Role(models.TextChoices):
        OWNER = "owner", "Owner"
        HELPER = "helper", "Helper"

    id = models.UUIDField(primary_key=True, default=uuid.uuid4, editable=False)
    user = models.OneToOneField(settings.AUTH_USER_MODEL, models.CASCADE, related_name="member")
    workshop = models.ForeignKey(Workshop, models.CASCADE, related_name="members")
    name = models.CharField(max_length=120)
    role = models.CharField(max_length=10, choices=Role, default=Role.HELPER)
    active = models.BooleanField(default=True)
    created_at = models.DateTimeField(auto_now_add=True)

    def __str__(self) -> str:
        return f"{self.name} ({self.role})"

    @property
    def is_owner(self) -> bool:
        return self.role == self.Role.OWNER


class SignInLink(models.Model):
    """A link that signs one member in, once; only the digest of its secret is kept."""

    member = models.ForeignKey(Member, models.CASCADE, related_name="links")
    digest = models.CharField(max_length=64, unique=True)
    expires_at = models.DateTimeField()
    used_at = models.DateTimeField(null=True)

    def __str__(self) -> str:
        return f"link for {self.member}"

    @property
    def is_open(self) -> bool:
        return self.used_at is None and timezone.now() < self.expires_at


class ApiToken(models.Model):
    """Lets another program act as a member; only the digest is kept."""

    id = models.UUIDField(primary_key=True, default=uuid.uuid4, editable=False)
    member = models.ForeignKey(Member, models.CASCADE, related_name="tokens")
    name = models.CharField(max_length=120)
    digest = models.CharField(max_length=64, unique=True)
    created_at = models.DateTimeField(auto_now_add=True)
    last_used_at = models.DateTimeField(null=True)

    def __str__(self) -> str:
        return self.name
