"""The one data app."""

from django.apps import AppConfig


class RecordsConfig(AppConfig):
    """What the room knows."""

    name = "helmwright.records"
    label = "records"
