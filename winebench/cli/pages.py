"""Commands that print: batch card, labels, calendar."""

from __future__ import annotations

import argparse

from winebench.cli.arguments import CommandError
from winebench.cli.outputs import page_file
from winebench.cli.projects import look, plan
from winebench.model.project import Project
from winebench.plan.outlook import Outlook


def _seen(arguments: argparse.Namespace) -> tuple[Project, Outlook, str]:
    """Return the project, its plan, and what is said where it is seen from the past."""
    project, at, back = look(arguments.file, arguments.at)
    return project, plan(project, at), back


def _say(sentence: str, looks_back: str) -> None:
    print(sentence)
    if looks_back:
        print(looks_back)


def card(arguments: argparse.Namespace) -> int:
    """Print the batch card to a PDF."""
    from winebench.output.card import card_pdf
    from winebench.output.pages import OutputError

    page_file(arguments.output)
    project, seen, back = _seen(arguments)
    try:
        card_pdf(arguments.output, project, seen, arguments.paper or project.paper)
    except OutputError as problem:
        raise CommandError(str(problem)) from problem
    _say(f'Wrote the batch card to "{arguments.output}".', back)
    return 0


def stand_in(arguments: argparse.Namespace) -> int:
    """Print the half page for whoever stirs meanwhile to a PDF."""
    from winebench.output.pages import OutputError
    from winebench.output.stand_in import stand_in_pdf
    from winebench.plan.household.stand_in import StandInError

    page_file(arguments.output)
    project, seen, back = _seen(arguments)
    paper = arguments.paper or project.paper
    try:
        stand_in_pdf(arguments.output, project, seen, paper, arguments.first, arguments.last)
    except (OutputError, StandInError) as problem:
        raise CommandError(str(problem)) from problem
    _say(f'Wrote the half page for whoever stirs to "{arguments.output}".', back)
    return 0


def labels(arguments: argparse.Namespace) -> int:
    """Print the labels to a PDF."""
    from winebench.output.labels import labels_pdf
    from winebench.output.pages import OutputError

    page_file(arguments.output)
    project, seen, back = _seen(arguments)
    try:
        warnings = labels_pdf(arguments.output, project, seen, arguments.sheet, arguments.count)
    except OutputError as problem:
        raise CommandError(str(problem)) from problem
    _say(f'Wrote the labels to "{arguments.output}".', back)
    for warning in warnings:
        print(f"  {warning}")
    return 0


def calendar(arguments: argparse.Namespace) -> int:
    """Write the steps as an iCalendar file."""
    from winebench.output.calendar import calendar_ics
    from winebench.store.atomic import write_bytes
    from winebench.store.project_file import StoreError

    page_file(arguments.output)
    project, seen, back = _seen(arguments)
    try:
        write_bytes(arguments.output, calendar_ics(project, seen))
    except StoreError as problem:
        raise CommandError(str(problem)) from problem
    _say(f'Wrote the calendar to "{arguments.output}".', back)
    return 0
