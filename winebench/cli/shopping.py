"""The command that tells what to buy for a batch, and what it costs."""

from __future__ import annotations

import argparse

from winebench.cli.arguments import CommandError
from winebench.cli.outputs import page_file
from winebench.cli.projects import look, plan
from winebench.cli.show import print_json
from winebench.plan.shopping.text import shopping_lines, to_look_at


def shopping(arguments: argparse.Namespace) -> int:
    """Show the shopping list as text for a message, as JSON, or print it to a PDF."""
    if arguments.output is not None:
        page_file(arguments.output)
    project, at, back = look(arguments.file, arguments.at)
    seen = plan(project, at)
    if arguments.output is None or arguments.json:
        from winebench.output.label_count import labels_sentence

        labels = labels_sentence(project, seen.bottles.bottles)
    if arguments.json:
        print_json(
            {
                "make": seen.make_text,
                "items": seen.shopping,
                "later": seen.later,
                "look_at": list(to_look_at(seen)),
                "labels": labels,
                "cost": seen.bottles.cost,
            }
        )
    elif arguments.output is None:
        print("\n".join(shopping_lines(seen, labels)))
    if back and not arguments.json:
        print(back)
    if arguments.output is not None:
        from winebench.output.pages import OutputError
        from winebench.output.shopping import shopping_pdf

        try:
            shopping_pdf(arguments.output, project, seen, arguments.paper or project.paper)
        except OutputError as problem:
            raise CommandError(str(problem)) from problem
        if not arguments.json:
            print(f'Wrote the shopping list to "{arguments.output}".')
    return 0
