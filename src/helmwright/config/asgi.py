"""The application that a server runs."""

import os

from django.core.asgi import get_asgi_application

from helmwright.config.upload_limit import limited
from helmwright.web.guiding.pool import warm

os.environ.setdefault("DJANGO_SETTINGS_MODULE", "helmwright.config.settings")
application = limited(get_asgi_application())

if os.environ.get("HELMWRIGHT_WARM") == "on":
    warm()
