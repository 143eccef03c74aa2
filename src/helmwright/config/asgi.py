"""The application that a server runs."""

import os

from django.core.asgi import get_asgi_application

from helmwright.config.lifespan import end_with_parent, with_lifespan
from helmwright.config.upload_limit import limited

os.environ.setdefault("DJANGO_SETTINGS_MODULE", "helmwright.config.settings")
_django = limited(get_asgi_application())

from helmwright.web.desk.stream import STREAMS  # noqa: E402 - once Django knows its settings
from helmwright.web.guiding import pool  # noqa: E402


def _begun() -> None:
    end_with_parent()
    if os.environ.get("HELMWRIGHT_WARM") == "on":
        pool.warm()


def _ending() -> None:
    STREAMS.end()
    pool.close()


application = with_lifespan(_django, begun=_begun, ending=_ending)
