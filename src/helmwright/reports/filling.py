"""From the answer's own types to the parts of the JSON document."""

from helmwright.anatomy import MeasurerError
from helmwright.catalogue.instruction import Instruction
from helmwright.catalogue.sheet import ModelSheet
from helmwright.fit.outlook import (
    Build,
    BuildOutlook,
    Chance,
    Driver,
    FillOutlook,
    InsideGain,
    Proposal,
    Shift,
    SizeRisk,
    Spread,
    ZoneOutlook,
)
from helmwright.reports.cautions import ASSUMED
from helmwright.reports.document import (
    AnswerDocument,
    BuildPart,
    ChancePart,
    CoveringPart,
    DriverPart,
    FaultPart,
    FillPart,
    GainPart,
    InsideGainPart,
    InstructionPart,
    IntervalPart,
    MeasurePart,
    MeasurerPart,
    NowPart,
    PlayerPart,
    ProposalPart,
    RemarkPart,
    SettingPart,
    ShellPart,
    ShiftPart,
    SizeRiskPart,
    SpreadPart,
    ZonePart,
)
from helmwright.reports.face_parts import RangePart, face_part
from helmwright.reports.head_page import head_rows
from helmwright.reports.insides import guess_lines
from helmwright.reports.reading_quality import CoveringRow, covering_rows
from helmwright.reports.remarks import age_words
from helmwright.reports.sentences import reasons
from helmwright.reports.warnings import player_warnings
from helmwright.reports.youth import youth_lines
from helmwright.roster import PlayerAnswer, Remark, RosterAnswer
from helmwright.sources import Figure


def answer_json(answer: RosterAnswer) -> str:
    """The whole answer as indented JSON."""
    return answer_document(answer).model_dump_json(indent=2) + "\n"


def answer_document(answer: RosterAnswer) -> AnswerDocument:
    """The whole answer as a document."""
    sheet = answer.sheet
    return AnswerDocument(
        model=sheet.model if sheet else None,
        invented=sheet.invented if sheet else None,
        instructions=tuple(_instruction(each) for each in (sheet.instructions if sheet else ())),
        seed=answer.seed,
        asked=answer.asked,
        answered=len(answer.answers),
        players=tuple(_player(each, sheet) for each in answer.answers),
        measurers=tuple(_measurer(each) for each in answer.measurers),
        problems=tuple(_remark(each) for each in answer.problems),
        notices=tuple(_remark(each) for each in answer.notices),
        assumed=(
            ASSUMED,
            *youth_lines(each.player for each in answer.answers),
            *(guess_lines(answer.sheet) if answer.sheet else ()),
        ),
    )


def _player(answer: PlayerAnswer, sheet: ModelSheet | None) -> PlayerPart:
    player = answer.player
    return PlayerPart(
        row=player.row,
        number=player.number,
        name=player.name,
        position=player.position,
        age=age_words(player),
        head=tuple(
            MeasurePart(
                measure=row.measure,
                read=row.read,
                mean_mm=row.mean_mm,
                low_mm=row.low_mm,
                high_mm=row.high_mm,
            )
            for row in head_rows(answer.head)
        ),
        coverings=tuple(_covering(row) for row in covering_rows(answer.head)),
        proposal=_proposal(answer.proposal, answer, sheet) if answer.proposal else None,
        face=face_part(answer, sheet),
    )


def _proposal(proposal: Proposal, each: PlayerAnswer, sheet: ModelSheet | None) -> ProposalPart:
    current = each.current
    return ProposalPart(
        chart=tuple(ShellPart(shell=s.shell, chance=s.chance) for s in proposal.shells),
        now=_now(current, sheet) if current and sheet else None,
        ranked=tuple(_build(outlook) for outlook in proposal.ranked),
        delivered=_build(proposal.delivered),
        next_measures=tuple(
            GainPart(
                measure=g.measure, gain=g.gain, error=g.error, minutes=g.minutes, repeat=g.repeat
            )
            for g in proposal.next_measures
        ),
        within_reach=proposal.within_reach,
        measured=proposal.measured,
        warnings=player_warnings(each, sheet),
        insides_known=proposal.insides_known,
        inside_gain=_inside_gain(proposal.inside_gain),
        size_risk=_size_risk(proposal.size_risk),
        suits=proposal.suits,
        draws=proposal.draws,
        reasons=reasons(proposal, current, sheet),
    )


def _covering(row: CoveringRow) -> CoveringPart:
    firm = RangePart(mean=row.mean_mm, low=row.low_mm, high=row.high_mm)
    return CoveringPart(kind=row.kind.value, worn=row.worn, firm_mm=firm)


def _measurer(each: MeasurerError) -> MeasurerPart:
    return MeasurerPart(
        by=each.by,
        measure=each.measure,
        pairs=each.pairs,
        tem_mm=each.own_mm,
        usual_mm=each.usual_mm,
        used_mm=each.used_mm,
        past_usual=each.is_past_usual,
    )


def _size_risk(risk: SizeRisk | None) -> SizeRiskPart | None:
    if risk is None:
        return None
    return SizeRiskPart(
        read_mm=risk.read_mm, shell=risk.shell, other=risk.other, chance=risk.chance
    )


def _inside_gain(gain: InsideGain | None) -> InsideGainPart | None:
    if gain is None:
        return None
    return InsideGainPart(numbers=gain.numbers, gain=gain.gain, error=gain.error)


def _now(current: Build, sheet: ModelSheet) -> NowPart:
    pads = zip(sheet.pads, current.pads, strict=True)
    return NowPart(shell=current.shell, pads=tuple(kind.labels[index] for kind, index in pads))


def _build(outlook: BuildOutlook) -> BuildPart:
    return BuildPart(
        shell=outlook.build.shell,
        found_right=_chance(outlook.found_right),
        truly_fits=_chance(outlook.fits),
        changes=tuple(str(zone) for zone in outlook.changes),
        zones=tuple(_zone(place) for place in outlook.zones),
        brow_mm=_spread(outlook.brow_mm),
        tilt_deg=_spread(outlook.tilt_deg),
        twist_nm=_spread(outlook.twist_nm),
        roll_nm=_spread(outlook.roll_nm),
        floats=outlook.floats,
        faults=tuple(
            FaultPart(kind=str(f.kind), zone=str(f.zone) if f.zone else None, chance=f.chance)
            for f in outlook.faults
        ),
        drivers=tuple(_driver(driver) for driver in outlook.drivers),
        fills=tuple(_fill(fill) for fill in outlook.fills),
    )


def _fill(fill: FillOutlook) -> FillPart:
    return FillPart(
        zones=tuple(str(zone) for zone in fill.zones),
        pad_mm=tuple(_spread(pad) for pad in fill.pad_mm),
        gauge_kpa=_spread(fill.gauge_kpa),
        air_ml=_spread(fill.air_ml),
        strokes=_spread(fill.strokes) if fill.strokes else None,
        full=fill.full,
        flat=fill.flat,
    )


def _driver(driver: Driver) -> DriverPart:
    return DriverPart(
        assumption=str(driver.assumption),
        low=_setting(driver.low),
        high=_setting(driver.high),
        fits_low=_shift(driver.fits_low),
        fits_high=_shift(driver.fits_high),
        found_low=_shift(driver.found_low),
        found_high=_shift(driver.found_high),
    )


def _setting(side: Figure) -> SettingPart:
    return SettingPart(value=side.value, unit=side.unit, source=side.source.key, note=side.note)


def _shift(shift: Shift) -> ShiftPart:
    return ShiftPart(value=shift.value, error=shift.error)


def _zone(place: ZoneOutlook) -> ZonePart:
    return ZonePart(
        zone=str(place.zone),
        pad=place.pad_label,
        pad_mm=place.pad_mm,
        stroke_mm=_spread(place.stroke_mm),
        pressure_kpa=_spread(place.pressure_kpa),
        force_n=_spread(place.force_n),
        loose=place.loose,
        tight=place.tight,
    )


def _chance(chance: Chance) -> ChancePart:
    return ChancePart(value=chance.value, error=chance.error)


def _spread(spread: Spread) -> SpreadPart:
    return SpreadPart(mean=spread.mean, median=spread.median, low=spread.low, high=spread.high)


def _instruction(instruction: Instruction) -> InstructionPart:
    interval = instruction.accept_mm
    return InstructionPart(
        about=str(instruction.topic),
        says=instruction.says,
        accept_mm=IntervalPart(low=interval[0], high=interval[1]) if interval else None,
    )


def _remark(remark: Remark) -> RemarkPart:
    return RemarkPart(
        row=remark.row,
        who=remark.who,
        number=remark.number,
        column=remark.column,
        value=remark.value,
        wrong=remark.wrong,
        right=remark.right,
    )
