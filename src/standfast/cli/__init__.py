"""The command line: one small file per command, loaded when it is called.

Exit codes: 0 nothing fails and nothing is open; 1 a check fails or cannot be told; 2 the input or the call is faulty;
3 an internal fault, with the path of a report.
"""

import gc
import io
import keyword
import os
import sys
from importlib import import_module

import click

from standfast import __version__
from standfast.faults import FaultsFound, Refusal

COMMANDS: dict[str, str] = {
    "new": "Write a commented job file to start from.",
    "new-sheet": "Write a commented equipment data sheet to start from.",
    "new-firm": "Write a commented firm file to start from.",
    "check": "Check a job against its adopted codes.",
    "survey": "List what is still to be found out, first what most verdicts hang on.",
    "design": "Show the design that was chosen, as text or as data.",
    "explain": "Show the working behind one check or number.",
    "order": "Show the order of the work, and what is unsafe in any order that its steps allow.",
    "field": "Compile a job into the field sheet that a tablet works from.",
    "pack": "Write the permit set, the work order and the lists of a job.",
    "import": "Bring the folder of a job into a database.",
    "export": "Write a job of a database into a folder.",
    "verify": "Say what can be proven of a field record, and what was changed in it.",
    "record": "Show the record of a job in a database, settle a dispute, take an entry out, seal it.",
    "erase": "Erase the photos and names of a job for good; its record says so.",
    "serve": "Serve the office and its tablets.",
    "account": "Add, list or withdraw an account of the office.",
    "tablet": "Enrol, list or withdraw a tablet, or hand it a job.",
    "proof": "Run published cases against the calculators.",
    "demo": "Run the main job on an invented house.",
}
"""Every command and what it does."""


def module_of(name: str) -> str:
    """The module of a command: its name with underscores, and one behind it where the language has the word."""
    return f"standfast.cli.{name.replace('-', '_')}{'_' if keyword.iskeyword(name) else ''}"


class _Commands(click.Group):
    """Commands that are imported only when they are called."""

    def list_commands(self, ctx: click.Context) -> list[str]:
        return list(COMMANDS)

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:
        if cmd_name not in COMMANDS:
            raise click.exceptions.NoSuchCommand(cmd_name, possibilities=COMMANDS, ctx=ctx)
        module = import_module(module_of(cmd_name))
        command: click.Command = module.command
        return command

    def format_commands(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:
        with formatter.section("Commands"):
            formatter.write_dl(list(COMMANDS.items()))


@click.group(
    cls=_Commands,
    epilog="Example: standfast new my-job && standfast survey my-job",
    context_settings={"help_option_names": ["-h", "--help"]},
)
@click.version_option(__version__, prog_name="standfast")
def standfast() -> None:
    """Works out, proves and documents one home battery installation.

    A surveyed house and chosen equipment go in; checks with their clauses and working, a permit set and a work order
    come out. It is not a licence and not a stamp: the adopted local code, the maker's instructions and a licensed
    person decide.
    """


def run(arguments: list[str]) -> int:
    """Run one call and give its exit code."""
    try:
        result = standfast.main(arguments, prog_name="standfast", standalone_mode=False)
    except click.exceptions.Exit as leave:
        return leave.exit_code
    except click.Abort:
        click.echo("stopped", err=True)
        return 2
    except click.exceptions.NoArgsIsHelpError as error:
        error.show()
        return 2
    except click.ClickException as error:
        click.echo(_usage(error, arguments), err=True)
        return 2
    except FaultsFound as found:
        for fault in found.faults:
            click.echo(str(fault), err=True)
        return 2
    except Refusal as refusal:
        click.echo(f"standfast: {refusal}", err=True)
        return 2
    except Exception as error:  # noqa: BLE001 - the boundary of the program, see ARCHITECTURE
        from standfast.foreman.internal import report

        what = " ".join(str(error).split()) or type(error).__name__
        click.echo(f"standfast: internal fault: {what} ({report(error, arguments)})", err=True)
        return 3
    return result if isinstance(result, int) else 0


def _usage(error: click.ClickException, arguments: list[str]) -> str:
    """What is wrong with a call, in one line, and where its words are explained."""
    call = " ".join(["standfast", *(each for each in arguments[:1] if each in COMMANDS)])
    return f"{call}: {error.format_message()} (see {call} --help)"


def main() -> None:
    """Entry point of the installed command."""
    # Packages that happen to be installed beside this one have no say in how files are read.
    os.environ["PYDANTIC_DISABLE_PLUGINS"] = "__all__"
    # A call is over before its waste matters, and what it leaves need not be looked through at the end.
    gc.disable()
    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, io.TextIOWrapper):
            stream.reconfigure(encoding="utf-8")
    code = run(sys.argv[1:])
    gc.freeze()
    sys.exit(code)
