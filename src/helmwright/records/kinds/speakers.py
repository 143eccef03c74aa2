"""What is said of who said something, where a device's word is all there is."""

from uuid import UUID

from helmwright.records.kinds.payload import Payload


class SpeakerDoubted(Payload):
    """Somebody is named who had given neither PIN nor password at that device lately.

    The program says it right after the entry, whose effect stands: an act that was done with the
    hands is done.
    """

    KIND = "speaker doubted"
    entry: UUID
    named: UUID
    signed_in: UUID


class SpeakerConfirmed(Payload):
    """A manager has asked whether it was the person named."""

    KIND = "speaker confirmed"
    entry: UUID
    holds: bool
