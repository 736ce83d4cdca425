"""Commands that write or judge a project file: new, check, scale."""

from __future__ import annotations

import argparse
import sys

from winebench.cli.arguments import CommandError
from winebench.cli.outputs import other_project
from winebench.cli.projects import now, plan, read, sample, write
from winebench.model.edits import changed, new_id
from winebench.model.new_project import new_project
from winebench.model.project import Project
from winebench.units import Size, UnitsError


def new(arguments: argparse.Namespace) -> int:
    """Write a new project, or a copy of a sample; never over an existing file."""
    if arguments.file.exists():
        raise CommandError(f'"{arguments.file}" exists already; choose another name')
    if arguments.like:
        project = sample(arguments.like, now())
    else:
        project = new_project(arguments.gallon, arguments.file.stem)
    project = changed(project, id=new_id())
    if arguments.name:
        project = changed(project, name=arguments.name)
    if arguments.gallon:
        project = changed(project, gallon=arguments.gallon)
    write(arguments.file, project)
    print(f'Wrote "{arguments.file}": {project.name}.')
    return 0


def check(arguments: argparse.Namespace) -> int:
    """Report each file: 0 sound, 1 cautions that gate a step, 2 not readable."""
    at = arguments.at or now()
    worst = 0
    for path in arguments.files:
        try:
            seen = plan(read(path), at)
        except CommandError as problem:
            print(f"winebench: {problem}", file=sys.stderr)
            worst = 2
            continue
        gating = [c for c in seen.cautions if c.gates or c.severity in ("stop", "hold")]
        print(f"{path}: {'sound' if not gating else f'{len(gating)} to settle first'}")
        for caution in seen.cautions:
            print(f"  {caution.severity}: {caution.sentence} {caution.detail}".rstrip())
        worst = max(worst, 1 if gating else 0)
    return worst


def scale(arguments: argparse.Namespace) -> int:
    """Scale the recipe; write it with -o, else show the lines."""
    from winebench.cli.show import print_json, recipe_lines

    project = read(arguments.file)
    try:
        scaled = _scaled(project, arguments)
    except (UnitsError, ValueError) as problem:
        raise CommandError(str(problem)) from problem
    if arguments.output:
        write(other_project(arguments.output, arguments.file), scaled)
    seen = plan(scaled, now())
    if arguments.json:
        shown = {"make": seen.make_text, "factor": seen.scale_factor, "lines": seen.lines}
        shown |= {"must": seen.must, "vessels": seen.vessels, "bottles": seen.bottles}
        print_json(shown)
    else:
        print("\n".join(recipe_lines(seen)))
        if not arguments.output:
            print("Nothing was written; -o FILE keeps it.")
    return 0


def _scaled(project: Project, arguments: argparse.Namespace) -> Project:
    from winebench.plan.scale import scaled_project, scaled_to_fruit

    if arguments.by == "fruit":
        return scaled_to_fruit(project, arguments.to, arguments.fruit)
    scaled = scaled_project(project, arguments.to)
    if arguments.by == "finished" and Size(arguments.to).dimension == "volume":
        scaled = changed(scaled, make=changed(scaled.make, by="finished"))
    return scaled
