"""Readings of one head held against each other while they are taken; nothing is kept."""

from django.http import HttpRequest, HttpResponseBase, JsonResponse
from django.utils import timezone
from pydantic import ValidationError

from helmwright.anatomy import Reading, check_readings
from helmwright.records.models import Player
from helmwright.records.readers.heads import stated_of
from helmwright.records.words import room_day
from helmwright.web.station.forms import LookOverForm, fault_of
from helmwright.web.station.heard import heard


@heard("station-look-over", "POST")
def look_over(request: HttpRequest) -> HttpResponseBase:
    """What a person should look at in these readings; the readings that cannot be come first."""
    try:
        form = LookOverForm.model_validate_json(request.body)
        readings = [Reading(**each.model_dump()) for each in form.readings]
    except ValidationError as error:
        return JsonResponse({"error": "These are no readings.", **fault_of(error)}, status=400)
    except (KeyError, ValueError) as error:
        return JsonResponse({"error": str(error)}, status=400)
    player = Player.objects.filter(id=form.player).first()
    if player is None:
        return JsonResponse({"error": "There is no such player."}, status=404)
    findings = check_readings(readings, **stated_of(player, room_day(timezone.now())))
    return JsonResponse(
        {
            "findings": [
                {
                    "message": each.message,
                    "suggestion": each.suggestion or "",
                    "blocks": each.blocks,
                    "measures": list(each.measures),
                }
                for each in findings
            ]
        }
    )
