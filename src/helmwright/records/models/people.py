"""Players, those who answer for them, and staff."""

import uuid
from typing import ClassVar

from django.contrib.auth.base_user import AbstractBaseUser, BaseUserManager
from django.db import models
from django.db.models import CheckConstraint, Q, UniqueConstraint


class Role(models.TextChoices):
    """What somebody on the staff may do."""

    MANAGER = "manager", "manager"
    FITTER = "fitter", "fitter"
    STUDENT = "student", "student"
    TRAINER = "trainer", "athletic trainer"
    VIEWER = "viewer", "viewer"


class Team(models.Model):
    """A team of the program."""

    id = models.UUIDField(primary_key=True, default=uuid.uuid4)
    name = models.CharField(max_length=80, unique=True)

    def __str__(self) -> str:
        return self.name


class Season(models.Model):
    """A season of a team; at most one of them is open."""

    id = models.UUIDField(primary_key=True, default=uuid.uuid4)
    team = models.ForeignKey(Team, on_delete=models.PROTECT)
    name = models.CharField(max_length=40)
    is_open = models.BooleanField(default=True)

    class Meta:
        """One open season a team."""

        constraints = (
            UniqueConstraint(
                fields=["team"], condition=Q(is_open=True), name="season_one_open_a_team"
            ),
            UniqueConstraint(fields=["team", "name"], name="season_name_once_a_team"),
        )

    def __str__(self) -> str:
        return self.name


class StaffManager(BaseUserManager["Staff"]):
    """Finds staff by the name that they sign in with."""


class Staff(AbstractBaseUser):
    """Somebody who works in the room. Password and PIN never reach the ledger."""

    id = models.UUIDField(primary_key=True, default=uuid.uuid4)
    username = models.CharField(max_length=40, unique=True)
    name = models.CharField(max_length=80)
    role = models.CharField(max_length=10, choices=Role.choices)
    pin = models.CharField(max_length=200, blank=True, help_text="Argon2 hash of the PIN.")
    is_active = models.BooleanField(default=True)
    erased_at = models.DateTimeField(null=True, help_text="When both names were erased.")

    USERNAME_FIELD = "username"
    REQUIRED_FIELDS: ClassVar[list[str]] = ["name", "role"]
    objects: ClassVar[StaffManager] = StaffManager()

    class Meta:
        """Roles are the known ones; nobody without a name works here."""

        constraints = (
            CheckConstraint(name="staff_role_is_known", condition=Q(role__in=Role.values)),
            CheckConstraint(
                name="staff_erased_is_gone",
                condition=Q(erased_at__isnull=True) | Q(is_active=False),
            ),
        )

    def __str__(self) -> str:
        return self.name


class Player(models.Model):
    """One player: what the head estimate and the fitting use, and no more.

    The jersey number is no key: two players may have the same one. After an erasure the row stands
    as a pseudonym, with every personal column empty.
    """

    id = models.UUIDField(primary_key=True, default=uuid.uuid4)
    team = models.ForeignKey(Team, on_delete=models.PROTECT)
    number = models.CharField(max_length=8, blank=True)
    name = models.CharField(max_length=120, blank=True)
    position = models.CharField(max_length=40, blank=True)
    sex = models.CharField(max_length=6, blank=True)
    birth_year = models.PositiveSmallIntegerField(null=True)
    school_class = models.CharField(max_length=20, blank=True)
    stature_mm = models.FloatField(null=True)
    weight_kg = models.FloatField(null=True)
    glasses = models.BooleanField(null=True)
    worn = models.JSONField(default=list, help_text="What is worn under the helmet, as `Over`.")
    is_here = models.BooleanField(default=True, help_text="False once the player has left.")
    erased_at = models.DateTimeField(null=True)
    hold_until = models.DateField(null=True, help_text="A retention hold blocks erasure.")

    class Meta:
        """An erased player keeps nothing personal."""

        indexes = (models.Index(fields=["team", "number"]), models.Index(fields=["name"]))
        constraints = (
            CheckConstraint(
                name="player_erased_has_no_name",
                condition=Q(erased_at__isnull=True)
                | Q(name="", number="", birth_year__isnull=True, stature_mm__isnull=True),
            ),
            CheckConstraint(
                name="player_sex_is_known", condition=Q(sex__in=["", "male", "female"])
            ),
        )

    def __str__(self) -> str:
        return self.name or f"player {str(self.id)[-6:]}"


class Guardian(models.Model):
    """Who answers for a minor."""

    id = models.UUIDField(primary_key=True, default=uuid.uuid4)
    player = models.ForeignKey(Player, on_delete=models.PROTECT, related_name="guardians")
    name = models.CharField(max_length=120, blank=True)
    relation = models.CharField(max_length=40, blank=True)
    contact = models.CharField(max_length=120, blank=True)

    def __str__(self) -> str:
        return self.name or "guardian"


class Consent(models.Model):
    """What was agreed to, to which text, by whom."""

    id = models.UUIDField(primary_key=True, default=uuid.uuid4)
    player = models.ForeignKey(Player, on_delete=models.PROTECT, related_name="consents")
    guardian = models.ForeignKey(Guardian, null=True, on_delete=models.PROTECT)
    about = models.CharField(max_length=20, help_text="fitting, scan, warning")
    text_version = models.CharField(max_length=20, blank=True)
    on_paper = models.BooleanField(default=False, help_text="Its words are that paper's.")
    language = models.CharField(max_length=10, default="en-US")
    given_at = models.DateTimeField()
    withdrawn_at = models.DateTimeField(null=True)

    def __str__(self) -> str:
        return f"{self.about} {'on paper' if self.on_paper else self.text_version}"


class Device(models.Model):
    """A tablet or phone that the room knows; only on such a one a PIN is taken."""

    id = models.UUIDField(primary_key=True, default=uuid.uuid4)
    name = models.CharField(max_length=40)
    store = models.ForeignKey("Store", null=True, on_delete=models.PROTECT)
    token_digest = models.CharField(max_length=64, blank=True)
    enrolled_at = models.DateTimeField(null=True)
    revoked_at = models.DateTimeField(null=True)
    heard_at = models.DateTimeField(null=True)

    class Meta:
        """No two stations in use have one name."""

        constraints = (
            UniqueConstraint(
                fields=["name"], condition=Q(revoked_at__isnull=True), name="device_name_once"
            ),
        )

    def __str__(self) -> str:
        return self.name
