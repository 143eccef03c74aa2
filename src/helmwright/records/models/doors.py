"""What keeps the doors: tries to get in, who was heard where, and the codes of new devices.

None of this is in the ledger: it is wanted for minutes, and says nothing of what happened in the
room.
"""

from django.db import models
from django.db.models import UniqueConstraint

from helmwright.records.models.people import Device, Staff
from helmwright.records.models.things import Store


class Knock(models.Model):
    """One try at a door, kept until it no longer counts."""

    door = models.CharField(max_length=20)
    key = models.CharField(max_length=100, help_text="Whose tries are counted together.")
    at = models.DateTimeField()

    class Meta:
        """Counted by door and key."""

        indexes = (models.Index(fields=["door", "key", "at"]),)

    def __str__(self) -> str:
        return f"{self.door} {self.at:%H:%M:%S}"


class HeardHere(models.Model):
    """That somebody gave a PIN or a password at a device, or went on with such a session; when."""

    device = models.ForeignKey(Device, on_delete=models.CASCADE)
    staff = models.ForeignKey(Staff, on_delete=models.CASCADE)
    at = models.DateTimeField()

    class Meta:
        """The last time alone."""

        constraints = (
            UniqueConstraint(fields=["device", "staff"], name="heard_here_once_a_device"),
        )

    def __str__(self) -> str:
        return f"{self.staff} at {self.device}"


class EnrollmentCode(models.Model):
    """Lets one device in, once, for some minutes; only the digest of the code is kept."""

    digest = models.CharField(primary_key=True, max_length=64)
    name = models.CharField(max_length=40, help_text="Of the device.")
    store = models.ForeignKey(Store, null=True, on_delete=models.CASCADE)
    by = models.ForeignKey(Staff, on_delete=models.CASCADE)
    until = models.DateTimeField()
    used_at = models.DateTimeField(null=True)

    def __str__(self) -> str:
        return f"code for {self.name}"
