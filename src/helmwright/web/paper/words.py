"""Words that stand on paper in several places."""


def model_words(model: str, *, is_invented: bool) -> str:
    """The model, said to be invented where it is and does not say so itself."""
    return f"{model} (invented)" if is_invented and "invented" not in model.lower() else model
