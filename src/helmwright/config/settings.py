"""Django's settings for one equipment room."""

import os
from typing import Any

from helmwright.config.newest_sqlite import is_sound, use_newest_sqlite
from helmwright.config.place import Place

use_newest_sqlite()
SQLITE_IS_SOUND = is_sound()

PLACE = Place.of_environment()
SECRET_KEY = PLACE.secret_key()
DATABASES = PLACE.databases()
DEBUG = False

LISTENS_AT = os.environ.get("HELMWRIGHT_LISTENS_AT", "127.0.0.1")
"""The address that the server is heard at; beyond loopback without TLS every page says so."""

UNDER_TLS = os.environ.get("HELMWRIGHT_TLS", "") == "on"
"""Whether every page goes out under TLS, so that cookies may insist on it."""

PIN_IDLE_MINUTES = float(os.environ.get("HELMWRIGHT_PIN_IDLE_MINUTES") or 15)
"""How long after the last act a PIN is asked for again."""

ALLOWED_HOSTS = [
    "127.0.0.1",
    "localhost",
    "[::1]",
    *filter(None, os.environ.get("HELMWRIGHT_HOSTS", "").split(",")),
]

INSTALLED_APPS = [
    "django.contrib.auth",
    "django.contrib.contenttypes",
    "django.contrib.sessions",
    "django.contrib.messages",
    "whitenoise.runserver_nostatic",
    "django.contrib.staticfiles",
    "axes",
    "csp",
    "helmwright.records",
    "helmwright.web",
]

MIDDLEWARE = [
    "django.middleware.security.SecurityMiddleware",
    "helmwright.web.house_files.HouseFilesMiddleware",
    "csp.middleware.CSPMiddleware",
    "django.contrib.sessions.middleware.SessionMiddleware",
    "django.middleware.common.CommonMiddleware",
    "django.middleware.csrf.CsrfViewMiddleware",
    "django.contrib.auth.middleware.AuthenticationMiddleware",
    "django.contrib.messages.middleware.MessageMiddleware",
    "django.middleware.clickjacking.XFrameOptionsMiddleware",
    "helmwright.web.sign_in.middleware.DeviceMiddleware",
    "axes.middleware.AxesMiddleware",
    "helmwright.web.busy.BusyMiddleware",
]

AUTH_USER_MODEL = "records.Staff"
AUTHENTICATION_BACKENDS = [
    "axes.backends.AxesStandaloneBackend",
    "django.contrib.auth.backends.ModelBackend",
]
PASSWORD_HASHERS = ["django.contrib.auth.hashers.Argon2PasswordHasher"]
AUTH_PASSWORD_VALIDATORS: list[dict[str, Any]] = [
    {
        "NAME": "django.contrib.auth.password_validation.MinimumLengthValidator",
        "OPTIONS": {"min_length": 10},
    },
    {"NAME": "django.contrib.auth.password_validation.CommonPasswordValidator"},
]
LOGIN_URL = "sign-in"
LOGIN_REDIRECT_URL = "/"

AXES_LOCKOUT_PARAMETERS = [["username", "ip_address"]]
AXES_FAILURE_LIMIT = 5
AXES_COOLOFF_TIME = 0.25  # h
AXES_RESET_ON_SUCCESS = True
AXES_RESET_COOL_OFF_ON_FAILURE_DURING_LOCKOUT = False
AXES_CLIENT_IP_CALLABLE = "helmwright.web.sign_in.address.address_of"
AXES_LOCKOUT_CALLABLE = "helmwright.web.sign_in.password.locked_out"
AXES_VERBOSE = False
# Who signed in and when would stand there for good, by name, where no erasure reaches.
AXES_DISABLE_ACCESS_LOG = True

SESSION_COOKIE_AGE = 12 * 60 * 60
SESSION_COOKIE_SAMESITE = "Lax"
SESSION_COOKIE_SECURE = UNDER_TLS
CSRF_COOKIE_SAMESITE = "Lax"
CSRF_COOKIE_SECURE = UNDER_TLS
CSRF_FAILURE_VIEW = "helmwright.web.sign_in.refusals.forged"
SECURE_HSTS_SECONDS = 30 * 24 * 60 * 60 if UNDER_TLS else 0
X_FRAME_OPTIONS = "DENY"
SECURE_REFERRER_POLICY = "same-origin"
SECURE_CROSS_ORIGIN_OPENER_POLICY = "same-origin"
CONTENT_SECURITY_POLICY = {
    "DIRECTIVES": {
        "default-src": ["'none'"],
        "script-src": ["'self'"],
        "style-src": ["'self'"],
        "img-src": ["'self'", "data:"],
        "font-src": ["'self'"],
        "connect-src": ["'self'"],
        "manifest-src": ["'self'"],
        "worker-src": ["'self'"],
        "form-action": ["'self'"],
        "base-uri": ["'none'"],
        "frame-ancestors": ["'none'"],
    }
}

ROOT_URLCONF = "helmwright.config.urls"
ASGI_APPLICATION = "helmwright.config.asgi.application"
TEMPLATES: list[dict[str, Any]] = [
    {
        "BACKEND": "django.template.backends.django.DjangoTemplates",
        "APP_DIRS": True,
        "OPTIONS": {
            "context_processors": [
                "django.template.context_processors.request",
                "django.contrib.auth.context_processors.auth",
                "django.contrib.messages.context_processors.messages",
                "helmwright.web.pages.room",
            ],
            "builtins": ["helmwright.web.templatetags.house"],
        },
    }
]

STATIC_URL = "/static/"
WHITENOISE_USE_FINDERS = True
WHITENOISE_AUTOREFRESH = False
WHITENOISE_ALLOW_ALL_ORIGINS = False

LANGUAGE_CODE = "en-us"
USE_TZ = True
TIME_ZONE = PLACE.time_zone()
USE_I18N = True
DEFAULT_AUTO_FIELD = "django.db.models.BigAutoField"
DATA_UPLOAD_MAX_MEMORY_SIZE = 8 * 1024 * 1024
DATA_UPLOAD_MAX_NUMBER_FIELDS = 2000

LOGGING: dict[str, Any] = {
    "version": 1,
    "disable_existing_loggers": False,
    "formatters": {"line": {"format": "{asctime} {levelname} {name}: {message}", "style": "{"}},
    "handlers": {"window": {"class": "logging.StreamHandler", "formatter": "line"}},
    "root": {"handlers": ["window"], "level": "WARNING"},
    "loggers": {
        "django": {"handlers": [], "level": "WARNING", "propagate": True},
        # A page that is not there, or refused, is no defect.
        "django.request": {"level": "ERROR"},
        "django.security.DisallowedHost": {"level": "CRITICAL"},
    },
}
"""Defects are told in the window where the room was started."""
