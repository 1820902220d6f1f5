"""A dry fit of a way to join the pair that is not there to be judged, so that what was seen would be lost unsaid."""

from collections.abc import Iterator

from generator.model.chain_parts import Clip, Link, SealSet
from generator.model.trials_and_rides import Trial
from generator.problems import Problem
from generator.validate.cross.compare import places
from generator.validate.draft import ClubDraft, Draft

# what speaks of one clip and of what lay between the plates; the rest counts whichever way the pair is joined
OF_ONE_WAY = ("clip_on", "bends", "plate_moves", "width_at_joint", "tip_stand_out",
              "tips_beyond_heads", "heads_beyond_heads")  # fmt: skip


def way_not_there(trial: Draft[Trial], club: ClubDraft) -> Iterator[Problem]:
    """The ways to join a pair are the clips and washers in stock, and the seals as the link has them."""
    link = club.find("link", trial.record.link)
    seen = [field for field in OF_ONE_WAY if getattr(trial.record, field) is not None]
    if link is None or not (trial.whole and link.whole and seen):
        return
    lost = f"so that {' and '.join(seen)} count{'' if len(seen) > 1 else 's'} for no way to join them"
    yield from _clip_not_there(trial, link, club, lost) or _seals_not_there(trial, link, club, lost)


def _clip_not_there(trial: Draft[Trial], link: Draft[Link], club: ClubDraft, lost: str) -> list[Problem]:
    if link.record.closure != "clip":
        return []
    id_ = trial.record.clip or link.record.clip
    clip: Draft[Clip] | None = club.find("clip", id_)
    if clip is not None and clip.record.count == 0:
        message = f"none of clip '{clip.id}' is left (count: 0), {lost}"
        fix = "put the clip back in stock; of a clip that is gone the trial is kept as it is, without effect"
        return [_warning(trial, message, "clip", fix, clip)]
    if id_ == "none" and trial.record.clip_on is None and _has_clips(club):
        fix = "name the clip that was used, in the trial or as that of the link"
        return [_warning(trial, f"no clip is named, {lost}", "clip", fix, link)]
    return []


def _has_clips(club: ClubDraft) -> bool:
    """Without any a link is judged as it is."""
    return any(clip.record.count for clip in club.kinds["clip"].values())


def _seals_not_there(trial: Draft[Trial], link: Draft[Link], club: ClubDraft, lost: str) -> list[Problem]:
    own = link.record.seals
    if trial.record.washers is not None and trial.record.seals != "packed":
        message = f"washers are named, but seals is {trial.record.seals}, so that they count for nothing"
        return [_warning(trial, message, "washers", "write seals: packed, or take washers out", link)]
    if (
        "seal" in club.unread
        or own in (None, "unknown")
        or (own != "none" and club.find("seal", own) is None)
    ):
        return []
    of_link = club.find("seal", own)
    fitted = of_link is not None and not _is_washer(of_link)
    if of_link is not None and fitted and trial.record.seals == "fitted" and not of_link.record.count:
        message = f"none of seals '{own}' is left (count: 0), {lost}"
        fix = "put the seals back in stock; of seals that are gone the trial is kept as it is, without effect"
        return [_warning(trial, message, "seals", fix, of_link)]
    said = {
        "packed": _washers_not_there(trial, club),
        "fitted": None if fitted or _on_plain(trial, club) else ("the link has no seals", NAME_THEM),
    }.get(trial.record.seals)
    field = "washers" if trial.record.seals == "packed" and trial.record.washers else "seals"
    return [_warning(trial, f"{said[0]}, {lost}", field, said[1], link)] if said else []


def _washers_not_there(trial: Draft[Trial], club: ClubDraft) -> tuple[str, str] | None:
    named, sets = trial.record.washers, _washers_in_stock(club)
    if named is not None:
        return None if named in sets else (f"'{named}' are no packing washers in stock", WASHERS)
    if not sets:
        return "no packing washers are in stock", WASHERS
    return (
        None
        if len(sets) == 1
        else ("the club has several sets of washers", f"write washers: {sets[0]}, or another")
    )


WASHERS = "write the washers into seals.yaml with shape: washer and how many there are"
NAME_THEM = "name the seals of the link, or write seals: none"


def _washers_in_stock(club: ClubDraft) -> list[str]:
    return [id_ for id_, seal in club.kinds["seal"].items() if _is_washer(seal) and seal.record.count]


def _is_washer(seal: Draft[SealSet]) -> bool:
    return seal.record.shape == "washer"


def _on_plain(trial: Draft[Trial], club: ClubDraft) -> bool:
    """Seals that neither link nor chain has are told as such."""
    chain = club.find("chain", trial.record.chain)
    return chain is None or chain.record.kind == "plain"


def _warning(
    trial: Draft[Trial], message: str, field: str, fix: str, other: Draft[Clip] | Draft[Link] | Draft[SealSet]
) -> Problem:
    named = (field,) if trial.has(field) else ()
    counted = places(other, "count") if other.kind in ("clip", "seal") else ()
    related = counted or (other.place(),)
    return trial.problem("T510", message, *named, fix=fix, level="warning", related=related)
