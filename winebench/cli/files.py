"""Commands that write or judge a project file: new, check, scale."""

from __future__ import annotations

import argparse
import sys

from winebench.cli.arguments import CommandError
from winebench.cli.outputs import other_project
from winebench.cli.projects import look, now, plan, read, sample, write
from winebench.model.edits import changed, new_id
from winebench.model.new_project import in_the_kitchen_of, new_project
from winebench.model.project import Project
from winebench.units import Size, UnitsError


def new(arguments: argparse.Namespace) -> int:
    """Write a new project, or a copy of a sample; never over an existing file."""
    if not arguments.file.name:
        raise CommandError("a new project needs a name of its file, such as plum.winebench")
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
    if arguments.kitchen_of:
        project = in_the_kitchen_of(project, read(arguments.kitchen_of))
    write(arguments.file, project)
    print(f'Wrote "{arguments.file}": {project.name}.')
    return 0


def check(arguments: argparse.Namespace) -> int:
    """Report each file: 0 sound, 1 cautions that gate a step, 2 not readable."""
    worst = 0
    for path in arguments.files:
        try:
            project, at, back = look(path, arguments.at)
            seen = plan(project, at)
        except CommandError as problem:
            print(f"winebench: {problem}", file=sys.stderr)
            worst = 2
            continue
        gating = [c for c in seen.cautions if c.gates or c.severity in ("stop", "hold")]
        print(f"{path}: {'sound' if not gating else f'{len(gating)} to settle first'}")
        if back:
            print(f"  {back}")
        for caution in seen.cautions:
            print(f"  {caution.severity}: {caution.sentence} {caution.detail}".rstrip())
        worst = max(worst, 1 if gating else 0)
    return worst


def scale(arguments: argparse.Namespace) -> int:
    """Scale the recipe, choose its vessels, or both; write it with -o, else show the lines."""
    from winebench.cli.show import print_json, recipe_lines, vessel_lines, wrapped

    project = read(arguments.file)
    try:
        scaled, said = _in_vessels(_scaled(project, arguments), arguments)
    except (UnitsError, ValueError) as problem:
        raise CommandError(str(problem)) from problem
    if arguments.output:
        write(other_project(arguments.output, arguments.file), scaled)
    seen = plan(scaled, now())
    if arguments.json:
        shown = {"make": seen.make_text, "factor": seen.scale_factor, "lines": seen.lines}
        shown |= {"must": seen.must, "vessels": seen.vessels, "bottles": seen.bottles}
        print_json(shown | {"said": said})
    else:
        print("\n".join(recipe_lines(seen)))
        if arguments.vessels:
            print("\n".join(vessel_lines(seen, said)))
        for caution in seen.cautions:
            if caution.key == "volume-off":
                print("\n".join(wrapped("  ! ", f"{caution.sentence} {caution.detail}")))
        if not arguments.output:
            print("Nothing was written; -o FILE keeps it.")
    return 0


def _scaled(project: Project, arguments: argparse.Namespace) -> Project:
    from winebench.plan.choose import size_to_fill
    from winebench.plan.scale import scaled_project, scaled_to_fruit

    if arguments.vessels is not None and not arguments.vessels.strip():
        raise CommandError('--in names no vessel; write --in "26 L pail, 19 L jug" or --in shelf')
    if arguments.to is None:
        if not arguments.vessels and not arguments.shelf:
            raise CommandError('say --to what size, such as --to "5 gal", or --in which vessels')
        return project
    if arguments.by == "fruit":
        return scaled_to_fruit(project, arguments.to, arguments.fruit)
    filling = size_to_fill(project, arguments.to)
    if filling is not None:
        made = scaled_project(project, filling.text)
        return changed(made, make=changed(made.make, asked=arguments.to.strip()))
    scaled = scaled_project(project, arguments.to)
    if arguments.by == "finished" and Size(arguments.to).dimension == "volume":
        scaled = changed(scaled, make=changed(scaled.make, by="finished"))
    return scaled


def _in_vessels(project: Project, arguments: argparse.Namespace) -> tuple[Project, tuple[str, ...]]:
    """Return the project with the shelf and the vessels asked for, and what is said of them."""
    from winebench.plan.choose import choose, choose_edit
    from winebench.plan.typed.vessels import read_shelf, read_vessels

    if arguments.shelf is not None:
        shelf = read_shelf(arguments.shelf, project.gallon)
        project = changed(project, kitchen=changed(project.kitchen, shelf=shelf))
    if arguments.vessels is None:
        return project, ()
    if arguments.vessels.strip().lower() not in ("shelf", "the shelf"):
        vessels = read_vessels(arguments.vessels, project.make.vessels, project.gallon)
        return changed(project, make=changed(project.make, vessels=vessels)), ()
    chosen = choose(project)
    return choose_edit(project, chosen).apply(project), chosen.sentences
