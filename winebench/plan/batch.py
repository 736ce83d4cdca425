"""One project at one moment: the facts that the steps' rules look at."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from datetime import datetime, timedelta
from functools import cached_property

from winebench.model.log import Action
from winebench.model.project import Project
from winebench.plan.as_read import highest_end, must_as_read, must_with_sugar
from winebench.plan.asked_recipe import AskedRecipe
from winebench.plan.compose import RecipeOutlook
from winebench.plan.days import Clock, later, settled
from winebench.plan.evidence import doubtful_feeds, unplanned_g_per_l
from winebench.plan.gravity_forecast import Forecaster, Lines, full_hour, gravity_lines
from winebench.plan.household.weekends import on_weekend
from winebench.plan.outlook import Must
from winebench.plan.readings import Seen, of_the_must, readings
from winebench.plan.stability import Stability, stability
from winebench.plan.steps.rule import Plan, Rule, Span, span
from winebench.plan.stuck.rounds import earlier_rounds
from winebench.plan.stuck.standstill import accepted, without_lone_rises
from winebench.plan.stuck.sweet_end import SweetEnd, sweet_end
from winebench.plan.stuck.waiting import waiting_for_ferment


class Batch(AskedRecipe):
    """Everything that a step's rule may ask; each answer is worked out once."""

    def __init__(
        self,
        project: Project,
        clock: Clock,
        recipe: RecipeOutlook,
        rules: Mapping[str, Rule],
        forecaster: Forecaster,
    ) -> None:
        super().__init__(project, recipe)
        self.clock = clock
        self.rules = rules
        self._forecaster = forecaster
        self._plans: dict[str, Plan] = {}
        self.ticks: dict[str, list[Action]] = {}
        for action in project.actions:
            self.ticks.setdefault(action.step, []).append(action)
        self.actions = self.ticks
        self.earlier = earlier_rounds(self)
        if self.earlier:
            self.actions = {
                key: left
                for key, ticks in self.ticks.items()
                if (left := ticks[len(self.earlier.get(key, ())) :])
            }

    @property
    def now(self) -> datetime:
        """Return the moment of planning."""
        return self.clock.now

    # --- what was done -------------------------------------------------------------------

    def done(self, key: str) -> Action | None:
        """Return the latest tick of that step, or None."""
        return self.actions[key][-1] if key in self.actions else None

    def done_at(self, key: str) -> datetime | None:
        """Return when that step was done, by a tick or by other evidence, or None."""
        action = self.done(key)
        return settled(action.at) if action else self.plan(key).done_at

    def name_of(self, key: str) -> str:
        """Return what that step is called in this batch."""
        return self.plan(key).name or self.rules[key].name

    def passed(self, key: str) -> bool:
        """Return whether a later step, done already, leaves this one behind."""
        return self.passed_by(key) is not None

    def passed_by(self, key: str) -> str | None:
        """Return the done step that leaves this one behind, or None; bottles end all before."""
        rule = self.rules[key]
        ends = ("bottle",) if rule.number < self.rules["bottle"].number else ()
        return next((step for step in (*rule.passed_by, *ends) if step in self.actions), None)

    def over(self, key: str) -> bool:
        """Return whether nothing waits for that step any more."""
        return key in self.actions or self.passed(key) or self._over_unticked(key)

    def _over_unticked(self, key: str) -> bool:
        plan = self.plan(key)
        return plan.skipped or plan.done_at is not None

    def record(self, key: str, name: str) -> str:
        """Return what was written down under that name when the step was last done, or ""."""
        action = self.done(key)
        found = (r.value for r in action.records if r.name == name) if action else iter(())
        return next(found, "")

    # --- when steps come -----------------------------------------------------------------

    def plan(self, key: str) -> Plan:
        """Return that step's answer."""
        if key not in self._plans:
            rule = self.rules[key]
            plan = on_weekend(self, rule, rule.work_out(self))
            self._plans[key] = waiting_for_ferment(self, rule, plan)
        return self._plans[key]

    def span(self, key: str) -> Span | None:
        """Return when that step is (to be) done, never in the past unless it is done.

        None where it has no date, or is not needed or not ticked and passed by.
        """
        done = self.done_at(key)
        if done is not None:
            return Span(done, done, done)
        plan = self.plan(key)
        if plan.skipped or plan.window is None or self.passed(key):
            return None
        early, likely, late = (max(time, self.now) for time in plan.window)
        return Span(early, likely, late)

    def hours_after(self, key: str, early: float, likely: float, late: float) -> Span | None:
        """Return the window that many true hours after a step, or None where it has no date."""
        return self._after(key, self.clock.hours_after, (early, likely, late))

    def days_after(self, key: str, early: float, likely: float, late: float) -> Span | None:
        """Return the window that many days after a step, or None where it has no date."""
        return self._after(key, self.clock.days_after, (early, likely, late))

    def _after(
        self,
        key: str,
        count: Callable[[datetime, float], datetime],
        waits: tuple[float, float, float],
    ) -> Span | None:
        base = self.span(key)
        return span(*map(count, base, waits)) if base else None

    @cached_property
    def start(self) -> datetime:
        """Return when the must is (to be) made up."""
        made = [self.actions[k][0].at for k in ("sugar-water", "sulfite-must") if k in self.actions]
        if made:
            return settled(min(made))
        return self.clock.local(self.project.start) if self.project.start else self.now

    @cached_property
    def pitched(self) -> datetime | None:
        """Return when the yeast went in, or None."""
        first = self.actions.get("pitch")
        return settled(first[0].at) if first else None

    @cached_property
    def pitch(self) -> Span | None:
        """Return when the yeast goes, or went, in."""
        if self.pitched:
            return Span(self.pitched, self.pitched, self.pitched)
        return self.span("pitch")

    # --- what was read -------------------------------------------------------------------

    @cached_property
    def readings(self) -> tuple[Seen, ...]:
        """Return every reading, in order of time."""
        return readings(self.project, self.now)

    @cached_property
    def gravities(self) -> tuple[Seen, ...]:
        """Return the trusted gravities after the pitch, in order of time."""
        if self.pitched is None:
            return ()
        return tuple(s for s in self.readings if s.sg is not None and s.at > self.pitched)

    @cached_property
    def ferment(self) -> tuple[Seen, ...]:
        """Return the trusted gravities of the ferment: before any sugar went in to sweeten."""
        sweetened = self.actions.get("sweeten")
        if not sweetened:
            return self.gravities
        until = settled(sweetened[0].at)
        return tuple(seen for seen in self.gravities if seen.at < until)

    @cached_property
    def steady(self) -> tuple[Seen, ...]:
        """Return the gravities of the ferment without what rose alone: gas, or a slip."""
        return without_lone_rises(self)

    @cached_property
    def must_reading(self) -> Seen | None:
        """Return the last trusted gravity of the must, of those that speak of it at the pitch."""
        if self.pitched is None:
            found = tuple(s for s in self.readings if s.sg is not None and s.at <= self.now)
        else:
            found = of_the_must(self.readings, self.pitched, self.actions.get("sugar-water", ()))
        return found[-1] if found else None

    @property
    def last(self) -> Seen | None:
        """Return the newest trusted gravity after the pitch, or None."""
        return self.gravities[-1] if self.gravities else None

    @property
    def last_sg(self) -> float | None:
        """Return the newest trusted gravity after the pitch, or None."""
        return self.last.sg if self.last else None

    @cached_property
    def original_gravity(self) -> float:
        """Return the gravity at the pitch: read, else worked out of the recipe."""
        if self.must_reading is not None and self.must_reading.sg is not None:
            return self.must_reading.sg
        return self.recipe.must.gravity.value or 1.090

    @cached_property
    def must(self) -> Must:
        """Return the must as it was read before the yeast, else as the recipe reckons it.

        Until the yeast is in, the recipe may still be changed to what was read: it is shown.
        """
        return self.recipe.must if self.pitched is None else self.must_as_read

    @cached_property
    def must_as_read(self) -> Must:
        """Return the must with its last trusted gravity, and the sugar that went in besides."""
        read = must_as_read(self.recipe.must, self.must_reading)
        return must_with_sugar(read, unplanned_g_per_l(self))

    @cached_property
    def dry_gravity(self) -> float:
        """Return the gravity that this must should end at."""
        return self.must.dry_gravity.value or 0.996

    @cached_property
    def highest_end(self) -> float:
        """Return the highest gravity at which this wine may count as fermented out."""
        return highest_end(self.must.dry_gravity)

    @cached_property
    def sweet_end(self) -> SweetEnd | None:
        """Return where the yeast may stop with sugar left; None where it stands all of it."""
        return sweet_end(self)

    def gravity_with_used(self, share: float) -> float:
        """Return the gravity at which that share of the sugar is gone."""
        return self.original_gravity - share * (self.original_gravity - self.dry_gravity)

    @cached_property
    def stability(self) -> Stability:
        """Return how far the wine is on its way to dry and stable."""
        return stability(self)

    @cached_property
    def doubtful_feeds(self) -> tuple[Action, ...]:
        """Return the ticks of sugar that no must could take: asked about, and not counted."""
        return doubtful_feeds(self)

    # --- how it is to end ------------------------------------------------------------------

    @cached_property
    def sweet(self) -> bool:
        """Return whether the wine is to be sweetened at the end."""
        if accepted(self) is not None:
            return False
        final = self.project.recipe.targets.final_gravity
        if final is not None and final.scale == "SG":
            return final.value > self.dry_gravity + 0.002 and final.value > 1.0
        return final is None and self.style.sweet_g_per_l is not None

    # --- what is to come ------------------------------------------------------------------

    @cached_property
    def lines(self) -> Lines:
        """Return the gravity's course and when it passes the lines that steps wait for."""
        return gravity_lines(self, self._forecaster)

    @cached_property
    def next_reading(self) -> datetime | None:
        """Return when the forecast could most use a reading, or None."""
        found = self.lines.forecast
        if found is None or found.next_reading_h is None or self.pitch is None:
            return None
        return full_hour(self.clock.hours_after(self.pitch.likely, found.next_reading_h))

    def free_of_away(self, at: datetime) -> datetime:
        """Return that time, or the same hour on the first day at home after days away."""
        for _ in self.project.away:
            for away in self.project.away:
                if away.first <= at.date() <= away.last:
                    at = self.clock.days_after(at, (away.last - at.date()).days + 1)
        return at

    def last_time(self, *keys: str) -> datetime | None:
        """Return when the latest of those steps was ticked, or None."""
        return later(*(settled(self.actions[k][-1].at) for k in keys if k in self.actions))

    def within(self, seen: Seen | None, hours: float) -> bool:
        """Return whether that reading was taken within so many hours before now."""
        return seen is not None and self.now - seen.at <= timedelta(hours=hours)
