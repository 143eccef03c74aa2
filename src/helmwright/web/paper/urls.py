"""Addresses of what is printed."""

from django.urls import path

from helmwright.web.paper import cards, labels, pages

urlpatterns = [
    path("", pages.paper, name="paper"),
    path("label/<str:code>", labels.label, name="paper-label"),
    path("labels", labels.labels, name="paper-labels"),
    path("drawers", labels.drawers, name="paper-drawers"),
    path("roster", pages.roster, name="paper-roster"),
    path("visit-sheet", pages.blank, name="paper-blank"),
    path("card/<uuid:visit>", cards.card, name="paper-card"),
    path("cards", cards.cards, name="paper-cards"),
]
