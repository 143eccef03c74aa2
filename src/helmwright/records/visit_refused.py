"""Why something said of a visit is not kept at all."""


class RefusedError(ValueError):
    """What was said cannot be what happened, or not by whoever said it.

    Parameters
    ----------
    what, where, right
        What is wrong, in which field, and what would be right.
    """

    def __init__(self, what: str, where: str = "", right: str = "") -> None:
        self.what, self.where, self.right = what, where, right
        super().__init__(f"{what} {right}".strip())
