"""The whole command line: commands, their arguments, and the function each of them calls."""

import argparse
from collections.abc import Callable
from datetime import date
from difflib import get_close_matches
from pathlib import Path
from typing import NoReturn

from generator import __version__


class _Parser(argparse.ArgumentParser):
    """Suggests the command that was meant."""

    def error(self, message: str) -> NoReturn:
        if "invalid choice: '" in message:
            typed = message.split("invalid choice: '")[1].split("'")[0]
            near = get_close_matches(typed, COMMANDS, n=1)
            message += f"\ndid you mean: {near[0]}?" if near else ""
        super().error(message)


def parser() -> argparse.ArgumentParser:
    """The whole command line; the documentation lists what it says."""
    top = _Parser(
        prog="handbook",
        description="Which connecting link, clip and seals go with which drive chain: a club's handbook.",
    )
    top.add_argument("--version", action="version", version=f"handbook {__version__}")
    top.add_argument("--trace", action="store_true", help="on an internal fault, show where it happened")
    commands = top.add_subparsers(metavar="COMMAND", required=True)
    for name, (add, what) in COMMANDS.items():
        sub = commands.add_parser(name, help=what, description=what[0].upper() + what[1:] + ".")
        add(sub)
    return top


def _check(sub: argparse.ArgumentParser) -> None:
    def command(asked: argparse.Namespace) -> int:
        from generator.cli.check import check

        return check(asked.club, asked.format)

    _club(sub)
    sub.add_argument("--format", choices=("text", "json"), default="text", help="how problems are printed")
    sub.set_defaults(command=command)


def _build(sub: argparse.ArgumentParser) -> None:
    def command(asked: argparse.Namespace) -> int:
        from generator.cli.build import build

        return build(asked.club, asked.to, asked.as_of)

    _club(sub)
    sub.add_argument(
        "--to", type=_folder, default=Path("site"), metavar="DIR", help="where the site goes (site/)"
    )
    sub.add_argument("--as-of", type=_day, metavar="DATE", help="the day the handbook speaks for: 2027-03-01")
    sub.set_defaults(command=command)


def _serve(sub: argparse.ArgumentParser) -> None:
    def command(asked: argparse.Namespace) -> int:
        from generator.cli.serve import serve

        return serve(asked.club)

    _club(sub)
    sub.set_defaults(command=command)


def _explain(sub: argparse.ArgumentParser) -> None:
    def command(asked: argparse.Namespace) -> int:
        from generator.cli.explain import Asked, explain

        found = Asked(asked.chain, asked.link, asked.clip, asked.bike, asked.all, asked.json)
        return explain(asked.club, found)

    sub.add_argument("chain", metavar="CHAIN|BIKE", help="id of the chain, or of a bike that runs it")
    sub.add_argument("link", metavar="LINK", help="id of the connecting link")
    sub.add_argument("--clip", metavar="ID", help="only options with this clip")
    sub.add_argument("--bike", metavar="ID", help="judge by the room of this bike")
    sub.add_argument("--all", action="store_true", help="every option, check, interval and limit")
    _club(sub)
    sub.add_argument("--json", action="store_true", help="JSON on stdout, as in data/v1/fits.json")
    sub.set_defaults(command=command)


def _plan(sub: argparse.ArgumentParser) -> None:
    def command(asked: argparse.Namespace) -> int:
        from generator.cli.plan import plan

        return plan(asked.club, asked.ride, asked.bikes, asked.json)

    _club(sub)
    which = sub.add_mutually_exclusive_group()
    which.add_argument("--ride", metavar="ID", help="a ride of rides.yaml; left out: the whole club")
    which.add_argument("--bikes", metavar="ID,ID", help="these bikes, without a van")
    sub.add_argument("--json", action="store_true", help="JSON on stdout, as in data/v1/plan.json")
    sub.set_defaults(command=command)


def _start(sub: argparse.ArgumentParser) -> None:
    def command(asked: argparse.Namespace) -> int:
        from generator.cli.start import start

        return start(asked.folder)

    sub.add_argument("folder", type=_folder, metavar="DIR", help="a folder that is empty or not there yet")
    sub.set_defaults(command=command)


def _add(sub: argparse.ArgumentParser) -> None:
    def command(asked: argparse.Namespace) -> int:
        from generator.cli.add import add

        return add(asked.club, asked.kind)

    sub.add_argument("kind", choices=KINDS_ADDED, metavar="KIND", help=", ".join(KINDS_ADDED))
    _club(sub)
    sub.set_defaults(command=command)


# kinds of record that `add` asks for, in the order in which a club meets them
KINDS_ADDED = ("chain", "link", "clip", "seal", "bike", "trial", "plate", "strip", "tool", "ride")


def _schema(sub: argparse.ArgumentParser) -> None:
    def command(asked: argparse.Namespace) -> int:
        from generator.cli.schema import schema

        return schema(asked.to)

    sub.add_argument(
        "--to", type=_folder, metavar="DIR", help="write one file a kind here; left out: print all"
    )
    sub.set_defaults(command=command)


def _club(sub: argparse.ArgumentParser) -> None:
    sub.add_argument(
        "--club",
        type=_folder,
        metavar="DIR",
        help="the club's folder; left out: this folder if it holds club.yaml, else the invented demo club",
    )


def _folder(text: str) -> Path:
    """An empty text would quietly stand for the folder one is in."""
    if not text.strip():
        raise argparse.ArgumentTypeError("no folder is named; write . for this one")
    return Path(text)


def _day(text: str) -> date:
    from generator.model.fields import day_of

    day = day_of(text)
    if day is None:
        raise argparse.ArgumentTypeError(f"'{text}' is not a date; write year-month-day")
    return day


COMMANDS: dict[str, tuple[Callable[[argparse.ArgumentParser], None], str]] = {
    "check": (_check, "validate a club's folder and print every problem found"),
    "build": (_build, "build the whole handbook"),
    "serve": (_serve, "show the handbook and rebuild it when data, templates or pages change"),
    "explain": (_explain, "explain the verdict on one chain and one link"),
    "plan": (_plan, "say who carries what, and what stays uncovered"),
    "add": (_add, "ask for one record in a terminal and write it into the club's file"),
    "start": (_start, "make a starter folder for a new club"),
    "schema": (_schema, "write the JSON Schema of every file kind"),
}
