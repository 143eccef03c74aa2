"""Where a request comes from, and whether it came under TLS."""

from ipaddress import ip_address

from django.conf import settings
from django.http import HttpRequest


def address_of(request: HttpRequest) -> str:
    """The address at the other end of the connection; what a header claims is not believed."""
    return str(request.META.get("REMOTE_ADDR") or "")


def is_plain_beyond_loopback(request: HttpRequest) -> bool:
    """Whether others on the network could read this: heard beyond this machine, without TLS."""
    if request.is_secure():
        return False
    return not (is_loopback(settings.LISTENS_AT) and is_loopback(address_of(request)))


def is_loopback(host: str) -> bool:
    """Whether a host name or address is this machine alone; the empty one of a socket is."""
    if host in ("", "localhost"):
        return True
    try:
        return ip_address(host).is_loopback
    except ValueError:
        return False
