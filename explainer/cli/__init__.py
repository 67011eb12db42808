"""The command line: arguments in, calls, exit code out. The only place that prints or turns an error into a message.

Results go to standard output, messages to standard error. Exit 0 all made, 1 an order was refused, 2 wrong use,
130 stopped by Ctrl-C.
Each command stands in a file of its own; all imports that cost time stand inside the commands.
"""

from __future__ import annotations

from explainer.cli.early import StoppedQuietly

with StoppedQuietly():
    import click

    from explainer import __version__
    from explainer.cli.about import schema, sources
    from explainer.cli.check import check
    from explainer.cli.claims import claims
    from explainer.cli.headings import headings
    from explainer.cli.make import make
    from explainer.cli.program import Program
    from explainer.cli.reply import reply
    from explainer.cli.sent import sent
    from explainer.cli.start import start
    from explainer.cli.topics import topics
    from explainer.collector import end_at_once, tune_collector


@click.group(cls=Program, context_settings={"help_option_names": ["-h", "--help"]})
@click.version_option(__version__)
def main() -> None:
    """Explain a pair of spectacles to the person who wears it."""
    tune_collector()
    end_at_once()


for command in (start, make, check, claims, reply, topics, sources, schema, headings, sent):
    main.add_command(command)
