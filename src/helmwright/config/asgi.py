"""The application that a server runs."""

import os

from django.core.asgi import get_asgi_application

os.environ.setdefault("DJANGO_SETTINGS_MODULE", "helmwright.config.settings")
application = get_asgi_application()
