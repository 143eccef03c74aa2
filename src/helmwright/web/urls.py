"""Addresses of pages and of the station's messages."""

from django.urls import include, path

from helmwright.web.pages import icon

urlpatterns = [
    path("", include("helmwright.web.desk.urls")),
    path("", include("helmwright.web.sign_in.urls")),
    path("station/", include("helmwright.web.station.urls")),
    path("paper/", include("helmwright.web.paper.urls")),
    path("favicon.ico", icon, name="icon"),
    path("take-in/", include("helmwright.web.take_in.urls")),
]
