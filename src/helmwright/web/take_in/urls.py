"""Addresses."""

from django.urls import URLPattern, URLResolver, path

from helmwright.web.take_in import choose, downloads, preview, result

urlpatterns: list[URLPattern | URLResolver] = [
    path("", choose.choose, name="take-in"),
    path("preview/", preview.preview, name="take-in-preview"),
    path("do/", preview.do, name="take-in-do"),
    path("empty/<str:name>", downloads.template, name="take-in-template"),
    path("everything.zip", downloads.everything, name="take-in-everything"),
    path("<uuid:take_in_id>/", result.result, name="take-in-result"),
    path("<uuid:take_in_id>/undo/", result.undo, name="take-in-undo"),
]
