"""Addresses."""

from django.urls import URLPattern, URLResolver, path

from helmwright.web.sign_in import confirm, devices, password, pin, staff

urlpatterns: list[URLPattern | URLResolver] = [
    path("sign-in/", password.sign_in, name="sign-in"),
    path("sign-out/", password.sign_out, name="sign-out"),
    path("confirm/", confirm.confirm, name="confirm"),
    path("pin", pin.pin, name="pin"),
    path("enroll/", devices.enroll_here, name="enroll"),
    path("devices/", devices.devices, name="devices"),
    path("devices/<uuid:device>/name/", devices.device_rename, name="device-rename"),
    path("devices/<uuid:device>/revoke/", devices.device_revoke, name="device-revoke"),
    path("staff/", staff.staff, name="staff"),
    path("staff/<uuid:person>/role/", staff.staff_role, name="staff-role"),
    path("staff/<uuid:person>/active/", staff.staff_active, name="staff-active"),
    path("staff/<uuid:person>/password/", staff.staff_password, name="staff-password"),
    path("staff/<uuid:person>/pin/", staff.staff_pin, name="staff-pin"),
    path("staff/<uuid:person>/erase/", staff.staff_erase, name="staff-erase"),
]
