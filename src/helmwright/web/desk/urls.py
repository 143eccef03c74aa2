"""Addresses."""

from django.urls import URLPattern, URLResolver, include, path

from helmwright.web.desk import day, doubts, helmet, helmets, now, room, store, stores, stream

urlpatterns: list[URLPattern | URLResolver] = [
    path("roster/", include("helmwright.web.desk.roster_urls")),
    path("", now.now, name="now"),
    path("now/seen/", now.now_seen, name="now-seen"),
    path("now/who/", doubts.doubts, name="doubts"),
    path("now/who/decide/", doubts.doubts_decide, name="doubts-decide"),
    path("helmets/", helmets.helmet_list, name="helmets"),
    path("helmets/add/", helmets.helmet_add, name="helmet-add"),
    path("helmets/<str:code>/", helmet.helmet, name="helmet"),
    path("helmets/<str:code>/<str:act>/", helmet.helmet_act, name="helmet-act"),
    path("stores/", stores.store_list, name="stores"),
    path("stores/open/", stores.store_open, name="store-open"),
    path("stores/<uuid:store_id>/", store.store, name="store"),
    path("stores/<uuid:store_id>/count/", store.store_count, name="store-count"),
    path("stores/<uuid:store_id>/<str:act>/", store.store_act, name="store-act"),
    path("room/", room.room, name="room"),
    path("room/team/", room.room_team, name="room-team"),
    path("room/season/<uuid:team_id>/", room.room_season, name="room-season"),
    path("room/store/", room.room_store, name="room-store"),
    path("room/sheet/", room.room_sheet, name="room-sheet"),
    path("day/", day.day, name="day"),
    path("day/board", day.day_board, name="day-board"),
    path("day/order/", day.day_order, name="day-order"),
    path("day/stream", stream.day_stream, name="day-stream"),
]
