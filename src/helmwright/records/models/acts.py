"""What was done with players, helmets and parts."""

from django.db import models
from django.db.models import CheckConstraint, Q, UniqueConstraint

from helmwright.records.models.people import Device, Player, Staff
from helmwright.records.models.things import Helmet, Part, Sheet, Store


class Reading(models.Model):
    """One number off a tape or caliper."""

    id = models.UUIDField(primary_key=True, help_text="Of the entry that took it.")
    player = models.ForeignKey(Player, on_delete=models.PROTECT, related_name="readings")
    measure = models.CharField(max_length=40)
    value_mm = models.FloatField()
    over = models.CharField(max_length=20, blank=True)
    beneath = models.CharField(max_length=20, blank=True)
    by = models.ForeignKey(Staff, null=True, on_delete=models.PROTECT)
    at = models.DateTimeField()
    is_withdrawn = models.BooleanField(default=False, help_text="Corrected by a later entry.")

    class Meta:
        """No head is nothing."""

        indexes = (models.Index(fields=["player", "at"]),)
        constraints = (CheckConstraint(name="reading_is_a_length", condition=Q(value_mm__gt=0)),)

    def __str__(self) -> str:
        return f"{self.measure} {self.value_mm:g} mm"


class Visit(models.Model):
    """One fit visit: where it stands. Its events are the ledger's."""

    id = models.UUIDField(primary_key=True)
    player = models.ForeignKey(Player, on_delete=models.PROTECT, related_name="visits")
    store = models.ForeignKey(Store, on_delete=models.PROTECT)
    sheet = models.ForeignKey(Sheet, on_delete=models.PROTECT)
    helmet = models.ForeignKey(Helmet, null=True, on_delete=models.PROTECT, related_name="visits")
    station = models.ForeignKey(Device, null=True, on_delete=models.PROTECT)
    fitter = models.ForeignKey(Staff, null=True, on_delete=models.PROTECT)
    state = models.CharField(max_length=10)
    waits_for = models.CharField(max_length=120, blank=True, help_text="What is asked now.")
    build = models.JSONField(null=True, help_text="On the head or proposed, as a visit writes it.")
    found_right = models.FloatField(null=True, help_text="Stated chance of the last proposal.")
    try_ons = models.PositiveSmallIntegerField(default=0)
    began_at = models.DateTimeField()
    ended_at = models.DateTimeField(null=True)

    STATES = ("open", "paused", "accepted", "no build", "stopped", "symptom")

    class Meta:
        """One visit of a player at a time, and one of a helmet."""

        constraints = (
            CheckConstraint(
                name="visit_state_is_known",
                condition=Q(
                    state__in=["open", "paused", "accepted", "no build", "stopped", "symptom"]
                ),
            ),
            UniqueConstraint(
                fields=["player"], condition=Q(ended_at__isnull=True), name="visit_one_a_player"
            ),
            UniqueConstraint(
                fields=["helmet"], condition=Q(ended_at__isnull=True), name="visit_one_a_helmet"
            ),
        )

    def __str__(self) -> str:
        return f"visit {str(self.id)[-6:]}"


class VisitStep(models.Model):
    """An event of a visit, and its place in it."""

    visit = models.ForeignKey(Visit, on_delete=models.CASCADE, related_name="steps")
    place = models.PositiveIntegerField(help_text="From 0, which is the start.")
    entry = models.BigIntegerField(unique=True)
    event = models.JSONField(help_text="As a visit writes it, without what is private.")
    helmet = models.ForeignKey(
        Helmet,
        null=True,
        on_delete=models.SET_NULL,
        related_name="+",
        help_text="At the start, and where a build was put on: in which, where it is known.",
    )

    class Meta:
        """One event a place."""

        ordering = ("place",)
        constraints = (UniqueConstraint(fields=["visit", "place"], name="visit_place_once"),)

    def __str__(self) -> str:
        return f"{self.place} of {self.visit}"


class Reservation(models.Model):
    """A part or a helmet that is spoken for before it is taken; the first to ask has it."""

    id = models.UUIDField(primary_key=True, help_text="Of the entry that asked.")
    visit = models.ForeignKey(Visit, on_delete=models.PROTECT, related_name="reservations")
    store = models.ForeignKey(Store, on_delete=models.PROTECT)
    helmet = models.ForeignKey(Helmet, null=True, on_delete=models.PROTECT)
    part = models.ForeignKey(Part, null=True, on_delete=models.PROTECT)
    zone = models.CharField(max_length=20, blank=True, help_text="Where the part is to go.")
    slot = models.PositiveSmallIntegerField(default=1, help_text="Which of those on hand.")
    device = models.ForeignKey(Device, null=True, on_delete=models.PROTECT)
    at = models.DateTimeField()
    until = models.DateTimeField(null=True, help_text="When it was used or given up.")

    class Meta:
        """One thing, one holder."""

        constraints = (
            CheckConstraint(
                name="reservation_of_one_thing",
                condition=Q(helmet__isnull=True, part__isnull=False)
                | Q(helmet__isnull=False, part__isnull=True),
            ),
            UniqueConstraint(
                fields=["helmet"],
                condition=Q(until__isnull=True, helmet__isnull=False),
                name="reservation_one_a_helmet",
            ),
            UniqueConstraint(
                fields=["store", "part", "slot"],
                condition=Q(until__isnull=True, part__isnull=False),
                name="reservation_one_a_slot",
            ),
        )

    def __str__(self) -> str:
        return f"{self.helmet or self.part} for {self.visit}"


class Issue(models.Model):
    """Who holds a helmet, from when to when."""

    PURPOSES = ("game", "practice", "game and practice", "twin")

    id = models.UUIDField(primary_key=True, help_text="Of the entry that issued it.")
    helmet = models.ForeignKey(Helmet, on_delete=models.PROTECT, related_name="issues")
    player = models.ForeignKey(Player, on_delete=models.PROTECT, related_name="issues")
    visit = models.ForeignKey(Visit, null=True, on_delete=models.PROTECT, related_name="issues")
    season = models.ForeignKey("Season", null=True, on_delete=models.PROTECT)
    purpose = models.CharField(max_length=20)
    since = models.DateTimeField()
    until = models.DateTimeField(null=True)
    condition = models.CharField(max_length=200, blank=True, help_text="As it came back.")

    class Meta:
        """One holder at a time."""

        constraints = (
            UniqueConstraint(
                fields=["helmet"], condition=Q(until__isnull=True), name="issue_one_holder"
            ),
        )

    def __str__(self) -> str:
        return f"{self.helmet} to {self.player}"


class Acknowledgment(models.Model):
    """The warning was read and explained; the signatures are in the private part of the entry.

    What they signed for stands here as it was then: years later the helmet has other dates, another
    guard, and the player other readings.
    """

    id = models.UUIDField(primary_key=True, help_text="Of the entry that kept it.")
    player = models.ForeignKey(Player, on_delete=models.PROTECT, related_name="acknowledgments")
    helmet = models.ForeignKey(Helmet, null=True, on_delete=models.PROTECT)
    visit = models.ForeignKey(Visit, null=True, on_delete=models.PROTECT)
    text_version = models.CharField(max_length=20)
    language = models.CharField(max_length=10)
    guard = models.CharField(max_length=60, blank=True)
    strap = models.CharField(max_length=60, blank=True)
    certified_until = models.DateField(null=True)
    readings = models.JSONField(default=list, help_text="IDs of those that stood.")
    build = models.JSONField(null=True, help_text="Of the visit, as a visit writes it.")
    glasses = models.BooleanField(null=True, help_text="Whether the player wears any.")
    by = models.ForeignKey(Staff, null=True, on_delete=models.PROTECT)
    signed_by = models.CharField(max_length=20, help_text="player or guardian")
    at = models.DateTimeField()

    def __str__(self) -> str:
        return f"{self.text_version} by {self.player}"


class Doubt(models.Model):
    """An entry in the name of somebody whom its device had not heard; a manager says who it was."""

    entry = models.UUIDField(primary_key=True)
    named = models.ForeignKey(Staff, on_delete=models.PROTECT, related_name="doubts")
    signed_in = models.ForeignKey(Staff, on_delete=models.PROTECT, related_name="+")
    holds = models.BooleanField(null=True)
    by = models.ForeignKey(Staff, null=True, on_delete=models.PROTECT, related_name="+")
    at = models.DateTimeField(null=True, help_text="When it was decided.")

    class Meta:
        """Decided by somebody, at some time, or not at all."""

        constraints = (
            CheckConstraint(
                name="doubt_is_decided_whole",
                condition=Q(holds__isnull=True, at__isnull=True)
                | Q(holds__isnull=False, at__isnull=False),
            ),
        )

    def __str__(self) -> str:
        return f"{self.entry} by {self.named}"


class TakeIn(models.Model):
    """A file that was taken in, so that it can be undone as a whole."""

    id = models.UUIDField(primary_key=True)
    what = models.CharField(max_length=10, help_text="roster, helmets, stock")
    file_name = models.CharField(max_length=120)
    file_digest = models.CharField(max_length=64, blank=True)
    rows = models.PositiveIntegerField()
    at = models.DateTimeField()
    by = models.ForeignKey(Staff, null=True, on_delete=models.PROTECT)
    undone_at = models.DateTimeField(null=True)

    def __str__(self) -> str:
        return self.file_name


class TakeInRow(models.Model):
    """What one entry of a file did, kept until it is taken back or its person is erased."""

    take_in = models.ForeignKey(TakeIn, on_delete=models.PROTECT, related_name="made")
    entry = models.BigIntegerField(unique=True)
    kind = models.CharField(max_length=40)
    subject = models.UUIDField(db_index=True, help_text="The player, the helmet, or the store.")
    part = models.ForeignKey(Part, null=True, on_delete=models.PROTECT)
    before = models.JSONField(null=True, help_text="What stood there.")
    after = models.JSONField(null=True, help_text="What stands there if nobody changed it since.")
    left = models.TextField(blank=True, help_text="Why it stayed when the file was undone.")

    class Meta:
        """In the order of the ledger."""

        ordering = ("entry",)

    def __str__(self) -> str:
        return f"{self.kind} of {self.take_in}"
