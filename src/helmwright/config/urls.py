"""Every address of the room."""

from django.urls import include, path

urlpatterns = [path("", include("helmwright.web.urls"))]
