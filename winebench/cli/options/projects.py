"""The arguments of the commands on a whole project: make, check, show, scale."""

from __future__ import annotations

import argparse
from pathlib import Path

from winebench.cli.arguments import Command, at_option, country, json_option, sample_option


def add(command: Command) -> None:
    """Add them."""
    new = command("new", "files", "new", "write a new project, or a copy of a sample")
    new.add_argument("file", type=Path)
    sample_option(new)
    new.add_argument(
        "--gallon", type=country, metavar="{US,imperial}", help="whose gallon a bare gal is"
    )
    new.add_argument("--name", help="the batch's name")
    new.add_argument(
        "--kitchen-of", type=Path, metavar="OTHER",
        help="take over kitchen, shelf, instruments, stock and prices of that project",
    )  # fmt: skip

    check = command("check", "files", "check", "read, validate, report cautions")
    check.add_argument("files", nargs="+", type=Path, metavar="FILE")
    at_option(check)

    show = command("outlook", "show", "outlook", "the worked-out plan")
    show.add_argument("file", nargs="?", type=Path)
    sample_option(show)
    at_option(show)
    json_option(show)

    _scale(command("scale", "files", "scale", "scale the recipe to another size"))
    command("samples", "show", "samples", "list the bundled samples")


def _scale(scale: argparse.ArgumentParser) -> None:
    scale.add_argument("file", type=Path)
    scale.add_argument("--to", help='"5 gal", "19 L", "24 bottles", "fill 19 L jug"')
    scale.add_argument(
        "--in",
        dest="vessels",
        metavar="VESSELS",
        help='"26 L pail, 19 L jug"; or "shelf": choose for me from the vessels on the shelf',
    )
    scale.add_argument(
        "--shelf", help='vessels to keep on the shelf first, such as "6 gal pail, 2 x 1 gal jug"'
    )  # fmt: skip
    scale.add_argument(
        "--by", choices=("must", "finished", "fruit"), default="must",
        help="what --to measures: the must, the finished wine, or the fruit there is",
    )  # fmt: skip
    scale.add_argument("--fruit", help="which fruit, with --by fruit and several in the recipe")
    scale.add_argument("-o", "--output", type=Path, help="write here instead of showing it")
    json_option(scale)
