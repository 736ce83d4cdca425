"""The document: forecasts come later and never to the wrong project; time goes on by itself."""

from datetime import timedelta

from winebench.model.edits import Change, PutEntry, changed
from winebench.model.own_ferment import OwnFerment
from winebench.session import Session
from winebench.store import samples
from winebench.units import Gravity, Temperature
from winebench.window.document import Document
from winebench.window.forecasts import Forecasts


def document(qtbot, name="raspberry-day-3"):
    at = next(each.at for each in samples.samples() if each.name == name)
    made = Document(Session(samples.load_sample(name)), at)
    return made


def settled(qtbot, made):
    qtbot.waitUntil(lambda: not made.forecasts.busy, timeout=20_000)
    return made.outlook


def test_the_first_outlook_is_there_before_its_forecast(qtbot):
    made = document(qtbot)
    made.work_out()
    assert made.outlook.forecast is None
    assert made.outlook.steps
    assert settled(qtbot, made).forecast is not None
    made.forecasts.finish()


def test_a_forecast_that_arrives_late_belongs_to_the_newest_project(qtbot):
    made = document(qtbot)
    made.work_out()
    warm = Change(label="x", fields={"room": Temperature("26 °C")})
    made.edit(warm)
    outlook = settled(qtbot, made)
    alone = document(qtbot)
    alone.session.apply(warm)
    alone.work_out()
    assert settled(qtbot, alone).forecast == outlook.forecast
    made.forecasts.finish()
    alone.forecasts.finish()


def test_no_forecast_that_learned_from_other_batches_stands_in_for_a_moment(qtbot):
    made = document(qtbot)
    made.work_out()
    usual = settled(qtbot, made).forecast
    made.edit(Change(label="x", fields={"room": Temperature("26 °C")}))
    assert made.outlook.forecast is not None, "the last one of the same readings stands in"
    warm = settled(qtbot, made).forecast
    ferment = OwnFerment(name="x", batch="x", middles=(-2.0, 0, 0, 0, 0), spreads=(0.2,) * 5)
    made.edit(Change(label="x", fields={"own_ferments": (ferment,)}))
    assert made.outlook.forecast is None
    learned = settled(qtbot, made).forecast
    assert learned.going_by
    assert learned.crossings != warm.crossings
    made.undo()
    made.undo()
    assert settled(qtbot, made).forecast == usual
    made.forecasts.finish()


def test_the_same_evidence_is_worked_out_once(qtbot, monkeypatch):
    from winebench.forecast import forecaster

    asked = []
    real = forecaster.forecast
    monkeypatch.setattr(forecaster, "forecast", lambda *given: asked.append(given) or real(*given))
    made = document(qtbot)
    made.work_out()
    settled(qtbot, made)
    count = len(asked)
    made.edit(Change(label="x", fields={"name": "Another name"}))
    settled(qtbot, made)
    assert len(asked) == count == len(set(asked))
    made.forecasts.finish()


def test_questions_nobody_waits_for_any_more_are_dropped():
    forecasts = Forecasts()
    forecasts._beside.question = ("busy", ())
    for degree in range(5):
        forecasts.begin()
        forecasts._ask((degree, ()))
    assert forecasts._waiting == [(4, ())]


def test_an_edit_that_could_not_be_saved_is_refused_with_its_sentence(qtbot):
    made = document(qtbot, "damson-design")
    made.work_out()
    naive = made.now().replace(tzinfo=None)
    with qtbot.waitSignal(made.refused) as refused:
        made.edit(Change(label="x", fields={"start": naive}))
    assert "start" in refused.args[0]
    assert made.project.start != naive
    made.forecasts.finish()


def test_another_project_starts_with_its_own_undo(qtbot):
    made = document(qtbot)
    made.work_out()
    made.edit(Change(label="x", fields={"name": "Another name"}))
    made.replace(Session(samples.load_sample("damson-design")), made.now() + timedelta(days=1))
    assert not made.session.can_undo
    assert made.outlook.name == made.project.name
    settled(qtbot, made)
    made.forecasts.finish()


def test_a_corrected_reading_of_the_days_before_says_what_it_moved(qtbot):
    made = document(qtbot)
    made.work_out()
    settled(qtbot, made)
    pitched = made.project.done("pitch").at
    old = next(one for one in made.project.readings if one.gravity and one.at > pitched)
    assert old.id != made.project.readings[-1].id
    raised = Gravity(f"{old.gravity.value + 0.008:.3f}")
    made.edit(PutEntry(label="x", entry=changed(old, gravity=raised)))
    moved = [step.moved for step in settled(qtbot, made).steps if step.moved]
    assert moved
    assert all("was corrected to" in one.because for one in moved)
    made.undo()
    moved = [step.moved for step in settled(qtbot, made).steps if step.moved]
    assert all("was corrected to" in one.because for one in moved)
    made.forecasts.finish()
