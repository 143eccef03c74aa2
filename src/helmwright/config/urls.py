"""Every address of the room."""

from django.urls import include, path

urlpatterns = [path("", include("helmwright.web.urls"))]

handler400 = "helmwright.web.sign_in.refusals.unreadable"
handler500 = "helmwright.web.busy.failed"
