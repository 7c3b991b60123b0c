"""The command line: open the pages, check a rig, save its report, list the examples.

Exit codes: 0 all checks hold, 1 any does not, 2 the input cannot be used. What went wrong is told in one to three lines on standard error.
"""

from __future__ import annotations

import os
import runpy
import sys
import tempfile
import warnings
from pathlib import Path

import click

from rigcheck.errors import InputError, RigcheckError

PROGRAM = "python -m rigcheck"
ALL_HOLD, NOT_ALL_HOLD, UNUSABLE = 0, 1, 2
PAGES = Path(__file__).resolve().parent.parent / "pages" / "app.py"
PAGE_SETTINGS = {
    "server.address": "localhost",
    "browser.serverAddress": "localhost",
    "browser.gatherUsageStats": "false",
    "server.showEmailPrompt": "false",
    "server.maxUploadSize": "1",
    "client.showErrorDetails": "none",
    "client.toolbarMode": "minimal",
}
LONGEST_LINE = 400


class Commands(click.Group):
    """The one place where errors become lines on standard error and exit codes."""

    def main(self, args=None, prog_name=None, standalone_mode=True, **extra):
        _write_what_the_console_can()
        code = UNUSABLE
        try:
            code = super().main(args=args, prog_name=prog_name or PROGRAM, standalone_mode=False, **extra) or ALL_HOLD
        except RigcheckError as fault:
            _tell(str(fault))
        except click.UsageError as fault:
            asked = fault.ctx.command_path if fault.ctx else PROGRAM
            _tell(f'{fault.format_message()}\nHow it is used: "{asked} --help".')
        except click.ClickException as fault:
            _tell(fault.format_message())
        except (click.Abort, KeyboardInterrupt):
            code = 130
        except Exception as fault:  # a traceback would tell the reader nothing, and exit code 1 means something else
            _tell(
                f"rigcheck itself failed: {type(fault).__name__} {_place_of(fault)}\nThis is a fault of rigcheck: please report it with the rig file."
            )
        if not standalone_mode:
            return code
        sys.exit(code)


@click.group(cls=Commands, invoke_without_command=True, context_settings={"help_option_names": ["-h", "--help"]})
@click.pass_context
def commands(context: click.Context) -> int:
    """Check a small hoist: the pull in every rope, and whether each part is up to it.

    Without a command it opens the pages in a browser, on this computer only. RIG is a rig file or the name of an example.
    """
    return ALL_HOLD if context.invoked_subcommand else open_pages()


@commands.command()
@click.argument("rig")
@click.option("--json", "as_json", is_flag=True, help="Print one JSON object, in SI units.")
def check(rig: str, as_json: bool) -> int:
    """Print every check of a rig, the worst first.

    Exit code 0 if all hold, 1 if any falls short or cannot tell, 2 if the rig cannot be used.
    """
    assessment = _assess(rig)
    if as_json:
        from rigcheck.report.as_json import dumps

        _print(dumps(assessment) + "\n")
    else:
        from rigcheck.report.as_text import text

        _print(text(assessment))
    return ALL_HOLD if assessment.all_hold else NOT_ALL_HOLD


@commands.command()
@click.argument("rig")
@click.option("-o", "--output", "out", required=True, metavar="OUT.pdf", help="The file to save.")
def report(rig: str, out: str) -> int:
    """Save the report of a rig as a PDF.

    Exit code 0 once it is saved, whatever the verdicts.
    """
    target = _target(out, rig)
    assessment = _assess(rig)
    from rigcheck.report.contents import verdict_sentence
    from rigcheck.report.pdf import pdf

    _save(target, pdf(assessment))
    _print(f"{out} is saved. {verdict_sentence(assessment)}\n")
    return ALL_HOLD


@commands.command()
def examples() -> int:
    """List the example rigs, one a line, name first."""
    from rigcheck.rig.examples import about, names

    width = max(map(len, names()))
    _print("".join(f"{name:<{width}}  {' '.join(about(name).split()).partition('. ')[0].rstrip('.')}.\n" for name in names()))
    return ALL_HOLD


def open_pages() -> int:
    """Start the pages in this very process, so that stopping it stops them."""
    if not PAGES.is_file():
        raise InputError("the pages are not there", where=str(PAGES), right="Run it from a complete copy of the project.")
    from rigcheck.ui.cards import make_ready

    make_ready()
    sys.argv = ["streamlit", "run", str(PAGES)]
    for name, value in PAGE_SETTINGS.items():
        sys.argv += [f"--{name}", value]
    try:
        runpy.run_module("streamlit", run_name="__main__", alter_sys=True)
    except SystemExit as end:
        return int(end.code or 0)
    except ImportError as fault:
        if fault.name != "streamlit":
            raise
        raise InputError("the pages need Streamlit, which is not installed", right="Install what requirements.txt lists.") from None
    return ALL_HOLD


def _assess(rig: str):
    """Assess the rig that a path or an example's name stands for; a path that exists wins."""
    from rigcheck.checks.assessment import assess
    from rigcheck.rig.examples import example, names
    from rigcheck.rig.files import load

    warnings.simplefilter("ignore", RuntimeWarning)  # a number beyond its range is marked in the result, not on standard error
    if rig in names() and not _exists(rig):
        return assess(example(rig))
    if not _exists(rig) and not any(mark in rig for mark in (".", "/", os.sep)):
        raise InputError(f'there is no file and no example "{rig[:60]}"', where="RIG", right=f"Examples: {', '.join(names())}.")
    return assess(load(rig))


def _exists(path: str) -> bool:
    try:
        return Path(path).exists()
    except (OSError, ValueError):
        return False


def _target(out: str, rig: str) -> Path:
    """Where the report goes, or what is wrong with that: told before anything is worked out."""
    target = Path(out)
    shown = f'"{out[:120]}"'
    if target.suffix.lower() != ".pdf":
        raise InputError(f"{shown} does not end in .pdf", where="-o", right="The report is a PDF: name it such as rig.pdf.")
    if "\0" in out:
        raise _unwritable(out, "no name holds a null character")
    try:
        if target.is_dir():
            raise InputError(f"{shown} is a folder", where="-o", right="Name a file in it, such as rig.pdf.")
        if not target.parent.is_dir():
            raise InputError(
                f'there is no folder "{str(target.parent)[:120]}"', where="-o", right="Make the folder first, or choose another."
            )
        if target.exists() and _exists(rig) and target.samefile(rig):
            raise InputError(f"{shown} is the rig file itself", where="-o", right="Give the report a name of its own.")
        if target.exists() and not os.access(target, os.W_OK):
            raise InputError(f"{shown} may not be written", where="-o", right="Choose another name, or ask for the right to write it.")
    except OSError as fault:
        raise _unwritable(out, _reason(fault)) from None
    return target


def _save(target: Path, content: bytes) -> None:
    """Write beside the target and put it in its place whole: a report is never half there."""
    try:
        if target.exists() and not target.is_file():
            target.write_bytes(content)
            return
        handle, beside = tempfile.mkstemp(dir=target.parent, suffix=".part")
        try:
            with os.fdopen(handle, "wb") as file:
                file.write(content)
            os.chmod(beside, target.stat().st_mode & 0o777 if target.exists() else 0o666 & ~_mask())
            os.replace(beside, target)
        except BaseException:
            Path(beside).unlink(missing_ok=True)
            raise
    except OSError as fault:
        raise _unwritable(str(target), _reason(fault)) from None


def _mask() -> int:
    mask = os.umask(0)
    os.umask(mask)
    return mask


def _reason(fault: OSError) -> str:
    return (fault.strerror or str(fault)).lower()


def _unwritable(out: str, reason: str) -> InputError:
    shown = "".join(sign if sign.isprintable() else "?" for sign in out[:120])
    return InputError(f'"{shown}" cannot be written: {reason}', where="-o", right="Choose a folder where files may be saved.")


def _print(text: str) -> None:
    """To standard output; a reader that stops listening half-way is no fault."""
    try:
        sys.stdout.write(text)
        sys.stdout.flush()
    except BrokenPipeError:
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
    except OSError as fault:
        raise InputError(f"standard output cannot be written: {_reason(fault)}") from None


def _write_what_the_console_can() -> None:
    """Signs that the console lacks become question marks instead of errors."""
    for stream in (sys.stdout, sys.stderr):
        if hasattr(stream, "reconfigure"):
            stream.reconfigure(errors="replace")


def _tell(message: str) -> None:
    """At most three lines on standard error, none of them endless."""
    lines = [line for line in message.splitlines() if line.strip()][:3]
    for line in lines:
        click.echo(line if len(line) <= LONGEST_LINE else line[: LONGEST_LINE - 1] + "…", err=True)


def _place_of(fault: Exception) -> str:
    """Where in the code a fault arose."""
    last = fault.__traceback__
    while last is not None and last.tb_next is not None:
        last = last.tb_next
    return f"in {Path(last.tb_frame.f_code.co_filename).name}, line {last.tb_lineno}" if last else ""


if __name__ == "__main__":
    commands()
