"""Forms of the page Room."""

from typing import Any

from django import forms
from django.core.exceptions import ValidationError

from helmwright.catalogue import load_packaged, packaged_models, packaged_text
from helmwright.records.models import Team

MOST_BYTES = 500_000
"""A sheet in which every key is written has some 20,000."""


class TeamForm(forms.Form):
    """A team."""

    name = forms.CharField(
        label="Name of the team",
        max_length=80,
        help_text="As on prints: Tamarack Valley College Kingfishers.",
    )

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        kwargs.setdefault("auto_id", "team-%s")
        super().__init__(*args, **kwargs)


class SeasonForm(forms.Form):
    """A team's next season."""

    name = forms.CharField(label="Name of the season", max_length=40)

    def __init__(self, *args: Any, team: Team, **kwargs: Any) -> None:
        kwargs.setdefault("auto_id", f"season-{team.pk}-%s")
        super().__init__(*args, **kwargs)
        self.team = team


class SheetForm(forms.Form):
    """A packaged sheet, or a file."""

    packaged = forms.ChoiceField(
        label="An invented model, to try with",
        required=False,
        help_text="No such helmet exists. For a helmet that is worn, add its own sheet.",
    )
    file = forms.FileField(
        label="Or a file of your own",
        required=False,
        help_text="A model sheet as TOML; “helmwright sheet new” asks for what goes into it.",
        widget=forms.ClearableFileInput(attrs={"accept": ".toml,.txt"}),
    )

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        kwargs.setdefault("auto_id", "sheet-%s")
        super().__init__(*args, **kwargs)
        named = [(name, load_packaged(name).model) for name in packaged_models()]
        self.fields["packaged"] = forms.ChoiceField(
            label=self.fields["packaged"].label,
            help_text=self.fields["packaged"].help_text,
            required=False,
            choices=[("", "none of these"), *named],
        )
        self.order_fields(("packaged", "file"))
        self.text = ""

    def clean_file(self) -> str:
        """What is written in it."""
        file = self.cleaned_data["file"]
        if file is None:
            return ""
        if file.size > MOST_BYTES:
            raise ValidationError(
                f"This file has {file.size:,} bytes; a model sheet has at most {MOST_BYTES:,}."
                " Choose the sheet's own file."
            )
        data: bytes = file.read()
        try:
            return data.decode("utf-8-sig")
        except UnicodeDecodeError as error:
            line = data[: error.start].count(b"\n") + 1
            raise ValidationError(
                f"Line {line} has a sign that is not UTF-8. Save the file as text in UTF-8."
            ) from error

    def clean(self) -> dict[str, Any]:
        """One of the two."""
        cleaned: dict[str, Any] = super().clean() or {}
        if self.errors:
            return cleaned
        packaged, file = cleaned.get("packaged"), cleaned.get("file")
        if bool(packaged) == bool(file):
            raise ValidationError(
                "Choose one: an invented model or a file."
                if file
                else "Nothing was chosen, or the file is empty. Choose an invented model or a file."
            )
        self.text = packaged_text(packaged) if packaged else str(file)
        return cleaned
