"""The ledger: entries that are only ever added, and beside them what may be erased."""

from django.db import models
from django.db.models import CheckConstraint, Q


class Outcome(models.TextChoices):
    """What became of an entry."""

    TAKEN = "taken", "taken"
    SET_ASIDE = "set aside", "set aside"


class Entry(models.Model):
    """One thing that happened; never changed, never deleted (triggers hold that).

    `payload` is canonical JSON exactly as it was hashed. What may have to be erased one day stands
    in `Private`, and only its salted digest here.
    """

    seq = models.BigIntegerField(primary_key=True)
    id = models.UUIDField(unique=True)
    kind = models.CharField(max_length=40)
    actor = models.UUIDField(null=True)
    device = models.UUIDField(null=True)
    device_time = models.DateTimeField()
    server_time = models.DateTimeField()
    payload = models.TextField()
    private_digest = models.CharField(max_length=64, blank=True)
    corrects = models.UUIDField(null=True)
    outcome = models.CharField(max_length=10, choices=Outcome.choices)
    note = models.TextField(blank=True)
    previous = models.CharField(max_length=64)
    digest = models.CharField(max_length=64, unique=True)

    class Meta:
        """Rows are valid by the database's own word."""

        ordering = ("seq",)
        indexes = (models.Index(fields=["kind", "seq"]), models.Index(fields=["corrects"]))
        constraints = (
            CheckConstraint(name="entry_counts_from_one", condition=Q(seq__gte=1)),
            CheckConstraint(name="entry_outcome_is_known", condition=Q(outcome__in=Outcome.values)),
            CheckConstraint(
                name="entry_set_aside_says_why",
                condition=Q(outcome=Outcome.TAKEN) | ~Q(note=""),
            ),
        )

    def __str__(self) -> str:
        return f"{self.seq} {self.kind}"


class Private(models.Model):
    """Names, free text and signatures of one entry: deleted when the person asks."""

    entry = models.OneToOneField(Entry, primary_key=True, on_delete=models.PROTECT)
    person = models.UUIDField(null=True, db_index=True)
    salt = models.CharField(max_length=64)
    body = models.TextField()

    def __str__(self) -> str:
        return f"private part of {self.pk}"
