"""The application that a server runs."""

import os

from django.core.asgi import get_asgi_application

from helmwright.config.upload_limit import limited

os.environ.setdefault("DJANGO_SETTINGS_MODULE", "helmwright.config.settings")
application = limited(get_asgi_application())
