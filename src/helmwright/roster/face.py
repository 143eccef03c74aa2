"""What one player brings to the choice of face guard and strap, and what comes of it."""

from helmwright.catalogue.sheet import ModelSheet
from helmwright.fit.face_choice import FaceChoice, FaceWish, choose_face
from helmwright.roster.answer import PlayerAnswer
from helmwright.roster.player import Player
from helmwright.roster.positions import read_positions


def face_wish(player: Player) -> FaceWish:
    """Position, glasses and own choice of a player."""
    return FaceWish(read_positions(player.position), player.glasses, player.guard)


def face_choice(answer: PlayerAnswer, sheet: ModelSheet | None) -> FaceChoice | None:
    """Guards and straps for a player; None without a proposal, or where the sheet has neither."""
    outlook = answer.proposal.face if answer.proposal else None
    if sheet is None or outlook is None or not (sheet.face_guards or sheet.chin_straps):
        return None
    return choose_face(sheet, outlook, face_wish(answer.player))
