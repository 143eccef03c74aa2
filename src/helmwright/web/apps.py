"""The one page app."""

from django.apps import AppConfig


class WebConfig(AppConfig):
    """Pages over the records."""

    name = "helmwright.web"
    label = "web"
