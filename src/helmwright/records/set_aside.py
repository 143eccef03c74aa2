"""Why an entry has no effect."""


class SetAsideError(Exception):
    """Raised by a projector: the entry is kept, and nothing follows from it.

    The words say what happened and what to do, and name no person.
    """
