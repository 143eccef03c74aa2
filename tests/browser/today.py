"""A day for the stand-in: invented players, called after birds and places."""

from typing import Any

from helmwright.anatomy import MEASURES, spoken_name

ROOM = "Tamarack Valley College Kingfishers"
STAFF = "0198f0c0-0000-7000-8000-000000000001"
STORE = "0198f0c0-0000-7000-8000-0000000000a1"
SHEET = "d" * 64
BIRDS = ("Avocet", "Bittern", "Curlew", "Dunlin", "Egret", "Fulmar", "Grebe", "Heron", "Ibis")
PLACES = ("Brookside", "Cedar Falls", "Dry Creek", "Elm Grove")
POSITIONS = ("linebacker", "quarterback", "guard", "safety")
STANDINGS = (
    ("unmeasured", "unknown"),
    ("paused", "kept"),
    ("issued", "yes"),
    ("measured", "unknown"),
)


def player_id(at: int) -> str:
    """Of the player at that place."""
    return f"0198f0c0-0000-7000-8000-{at + 0x1000:012x}"


def player(at: int, **other: Any) -> dict[str, Any]:
    """One of them."""
    standing, mark = ("unmeasured", "unknown") if at == 0 else STANDINGS[at % 4]
    return {
        "id": player_id(at),
        "number": str(at + 2),
        "name": f"{BIRDS[at % 9]} {PLACES[at // 9 % 4]}",
        "position": POSITIONS[at % 4],
        "standing": standing,
        "mark": mark,
        "helmet": None,
        "visit": None,
        "worn": [],
        "glasses": None,
        "minor": False,
        "consent": False,
        "symptom": False,
        "readings": [],
    } | other


def today(count: int = 40) -> dict[str, Any]:
    """What the laptop answers."""
    person = {"id": STAFF, "name": "Wren Harbor", "role": "fitter"}
    return {
        "server_time": "",
        "room": ROOM,
        "device": {"id": STORE, "name": "Station 2", "store": STORE},
        "person": person,
        "people": [
            person | {"has_pin": True},
            {"id": STAFF[:-1] + "2", "name": "Plover Marsh", "role": "manager", "has_pin": True},
        ],
        "stores": [{"id": STORE, "name": "Equipment room"}],
        "sheets": [
            {"digest": SHEET, "model": "Ouzel (invented)", "invented": True},
            {"digest": "e" * 64, "model": "Dipper (invented)", "invented": True},
        ],
        "measures": [
            {
                "key": measure.key,
                "name": spoken_name(measure.key),
                "how": measure.how,
                "low_mm": measure.low_mm,
                "high_mm": measure.high_mm,
                "apart_mm": 1.96 * 2**0.5 * measure.reading_error.value,
            }
            for measure in MEASURES
        ],
        "players": [player(at) for at in range(count)],
        "warning": {
            "version": "1",
            "language": "en-US",
            "text": "No helmet prevents every injury.",
        },
        "consent_text": "1",
        "signature": {"letters": 2, "drawn": 30.0},
    }
