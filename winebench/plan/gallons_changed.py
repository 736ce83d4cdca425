"""What becomes of a batch whose bare gallons are said to be another country's."""

from __future__ import annotations

from collections.abc import Iterator

from winebench.model.project import Project
from winebench.plan.figures import litres_text
from winebench.units import Amount, GallonCountry


def gallons_changed(project: Project, now: GallonCountry) -> str:
    """Return what changes in litres and what stays, in a sentence or two; "" without a change."""
    before = project.gallon
    if before is None or before == now:
        return ""
    amounts = {amount.text.strip(): amount for amount in _volumes(project)}.values()
    bare = [amount for amount in amounts if amount.needs_country]
    named = next((amount for amount in amounts if _names_its_country(amount)), None)
    stays = f" “{named.text.strip()}” names its country and stays." if named else ""
    if not bare:
        return f"A bare gallon is {now} from now on; nothing here is written in one.{stays}"
    told = (
        f"“{amount.text.strip()}” is now {litres_text(amount.litres(now))}, before "
        f"{litres_text(amount.litres(before))}"
        for amount in bare[:2]
    )
    more = "; likewise the rest" if len(bare) > 2 else ""
    return f"{'; '.join(told)}{more}.{stays}"


def _volumes(project: Project) -> Iterator[Amount]:
    yield project.make.size
    yield project.recipe.basis
    yield from (line.amount for line in project.recipe.lines if line.amount is not None)
    yield from (vessel.holds for vessel in project.make.vessels)
    yield from (owned.holds for owned in project.kitchen.shelf)


def _names_its_country(amount: Amount) -> bool:
    return any(part.country for part in amount.parts)
