"""The stores, and what may run out over all of them."""

from django import forms
from django.core.exceptions import ValidationError
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.views.decorators.http import require_GET, require_POST

from helmwright.records.ids import new_id
from helmwright.records.kinds.things import StoreOpened
from helmwright.records.models import Store
from helmwright.records.readers.need import expected_need
from helmwright.records.readers.stores import stores
from helmwright.web.allowed import allowed
from helmwright.web.desk.acts import may_say, say, take_in_address
from helmwright.web.desk.parts_lane import WATCHED, awaited_words
from helmwright.web.desk.stock_picture import Pieces, need_rows


class StoreForm(forms.Form):
    """A place that holds parts."""

    name = forms.CharField(label="Name of the store", max_length=60, help_text="As on its door.")

    def clean_name(self) -> str:
        """No other store's."""
        name: str = self.cleaned_data["name"].strip()
        if Store.objects.filter(name=name).exists():
            raise ValidationError(f"There is a store called {name} already; take another name.")
        return name


def first_name() -> dict[str, str]:
    """What is suggested for the first store; nothing for others."""
    return {} if Store.objects.exists() else {"name": "Equipment room"}


@require_GET
@allowed("stores")
def store_list(request: HttpRequest) -> HttpResponse:
    """Every store, and what is expected."""
    return _page(request, StoreForm(initial=first_name()))


@require_POST
@allowed("store-open")
def store_open(request: HttpRequest) -> HttpResponse:
    """One more."""
    form = StoreForm(request.POST)
    if not form.is_valid():
        return _page(request, form)
    name = form.cleaned_data["name"]
    say(request, StoreOpened(store=new_id(timezone.now()), name=name), f"{name} is open.")
    return redirect("stores")


def _page(request: HttpRequest, form: StoreForm) -> HttpResponse:
    need = expected_need(timezone.localdate())
    scarce = [part for part in need.parts if part.outlook.short >= WATCHED]
    others = [part for part in need.parts if part.outlook.short < WATCHED]
    scale = Pieces.of(need.parts)
    there = max((part.outlook.on_hand for part in need.parts), default=0)
    page = {
        "stores": stores(),
        "form": form,
        "may_open": may_say(request, StoreOpened),
        "scarce": need_rows(scarce, need, scale),
        "others": need_rows(others, need, scale),
        "tape": scale.tape(there),
        "need": need,
        "coming": awaited_words(need),
        "take_in": take_in_address(request, "stock"),
    }
    return render(request, "web/desk/stores.html", page, status=422 if form.errors else 200)
