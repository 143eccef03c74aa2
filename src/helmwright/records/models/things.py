"""Model sheets, stores, helmets and parts."""

import uuid

from django.db import models
from django.db.models import CheckConstraint, F, Q, UniqueConstraint


class Sheet(models.Model):
    """One version of a model sheet, known by the digest of its content."""

    digest = models.CharField(primary_key=True, max_length=64)
    model = models.CharField(max_length=80)
    is_invented = models.BooleanField()
    text = models.TextField()
    added_at = models.DateTimeField()
    is_current = models.BooleanField(default=True, help_text="Offered for new visits.")

    def __str__(self) -> str:
        return self.model


class Store(models.Model):
    """A place that holds parts: the room, a station, a trunk."""

    id = models.UUIDField(primary_key=True, default=uuid.uuid4)
    name = models.CharField(max_length=60, unique=True)
    is_closed = models.BooleanField(default=False)

    def __str__(self) -> str:
        return self.name


class Helmet(models.Model):
    """One helmet, by the room's own ID."""

    id = models.UUIDField(primary_key=True, default=uuid.uuid4)
    code = models.CharField(max_length=20, unique=True, help_text="On its label, such as TV-0147.")
    serial = models.CharField(max_length=60, blank=True)
    sheet = models.ForeignKey(Sheet, on_delete=models.PROTECT)
    shell = models.PositiveSmallIntegerField()
    color = models.CharField(max_length=40, blank=True)
    store = models.ForeignKey(Store, on_delete=models.PROTECT)
    made_on = models.DateField(null=True)
    bought_on = models.DateField(null=True)
    first_certified_on = models.DateField(null=True)
    recertified_on = models.DateField(null=True)
    interval_months = models.PositiveSmallIntegerField(null=True)
    life_years = models.PositiveSmallIntegerField(null=True)
    hold = models.TextField(blank=True, help_text="Why it is on hold, every reason; or empty.")
    guard = models.CharField(max_length=60, blank=True)
    strap = models.CharField(max_length=60, blank=True)
    retired_on = models.DateField(null=True)

    class Meta:
        """Dates stand in their order."""

        constraints = (
            CheckConstraint(
                name="helmet_bought_after_made",
                condition=Q(made_on__isnull=True)
                | Q(bought_on__isnull=True)
                | Q(bought_on__gte=F("made_on")),
            ),
            UniqueConstraint(
                fields=["sheet", "serial"], condition=~Q(serial=""), name="helmet_serial_once"
            ),
        )

    def __str__(self) -> str:
        return self.code


class HelmetBuild(models.Model):
    """What was in a helmet from one moment on; the row without an end is what is in it now."""

    helmet = models.ForeignKey(Helmet, on_delete=models.CASCADE, related_name="builds")
    pads = models.JSONField(help_text="Zone to the pad's label as on its bag.")
    since = models.DateTimeField()
    until = models.DateTimeField(null=True)
    entry = models.BigIntegerField(help_text="Place in the ledger of what put it in.")

    class Meta:
        """One build now."""

        constraints = (
            UniqueConstraint(
                fields=["helmet"], condition=Q(until__isnull=True), name="helmet_one_build_now"
            ),
            CheckConstraint(
                name="helmet_build_ends_after_it_began",
                condition=Q(until__isnull=True) | Q(until__gte=F("since")),
            ),
        )

    def __str__(self) -> str:
        return f"{self.helmet} since {self.since:%Y-%m-%d}"


class Part(models.Model):
    """One kind of part: where it goes and what is written on its bag."""

    id = models.BigAutoField(primary_key=True)
    sheet = models.ForeignKey(Sheet, on_delete=models.PROTECT)
    place = models.CharField(max_length=20, help_text="A zone, a pool of two, guard, strap.")
    size = models.CharField(max_length=60)

    class Meta:
        """Each once."""

        constraints = (UniqueConstraint(fields=["sheet", "place", "size"], name="part_once"),)

    def __str__(self) -> str:
        return f"{self.place} {self.size}"


class Movement(models.Model):
    """Parts that came to a store, or left it. What a store holds is the sum of these."""

    entry = models.BigIntegerField()
    store = models.ForeignKey(Store, on_delete=models.PROTECT)
    part = models.ForeignKey(Part, on_delete=models.PROTECT)
    quantity = models.IntegerField(help_text="Positive: came. Negative: left.")
    why = models.CharField(max_length=20)
    helmet = models.ForeignKey(Helmet, null=True, on_delete=models.PROTECT)
    lot = models.CharField(max_length=60, blank=True)
    at = models.DateTimeField()

    class Meta:
        """Nothing moves by nothing."""

        indexes = (models.Index(fields=["store", "part"]), models.Index(fields=["entry"]))
        constraints = (CheckConstraint(name="movement_is_not_nothing", condition=~Q(quantity=0)),)

    def __str__(self) -> str:
        return f"{self.quantity:+d} {self.part}"


class Shelf(models.Model):
    """How many of a part a store holds: the sum of its movements, kept beside them.

    Below zero means that more was taken out with the hands than was ever counted in: a difference
    to be counted.
    """

    store = models.ForeignKey(Store, on_delete=models.PROTECT)
    part = models.ForeignKey(Part, on_delete=models.PROTECT)
    on_hand = models.IntegerField(default=0)
    counted = models.BigIntegerField(null=True, help_text="Entry of the last count.")

    class Meta:
        """Each part once a store."""

        constraints = (UniqueConstraint(fields=["store", "part"], name="shelf_part_once"),)

    def __str__(self) -> str:
        return f"{self.on_hand} {self.part}"
