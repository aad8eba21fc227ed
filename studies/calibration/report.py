"""Compare the engine with everything outside the project that it can be compared with.

    python studies/calibration/report.py

Writes ``docs/understand/validation.html`` (every row and plot), the summary
``docs/understand/validation.md`` and the raw rows in ``reference/calibration``. Rows that chose
our numbers (fitted) and rows that did not (checked) are kept apart throughout.
"""

from __future__ import annotations

import argparse
import csv
import sys
import time
from html import escape
from itertools import groupby
from pathlib import Path

import numpy as np

sys.path.insert(0, str(Path(__file__).resolve().parent))
import goals
import plays
import shapes
import tables
from check import Check, Role
from plot import ADVICE, INK, RISK, SOFT, Plot, sample_line, sample_point

from tendline.shot.constants import FITTED

DOCS = tables.ROOT / "docs" / "understand"
RAW = tables.ROOT / "reference" / "calibration"
BAND_GROUPS = ("men, by distance", "men, by angle", "women, by distance", "women, by angle")


def gathered() -> tuple[list[Check], dict[str, object]]:
    """Return all rows and what the plots need, saying what is being done."""
    rows: list[Check] = []

    def add(words: str, made: list[Check]) -> None:
        rows.extend(made)
        held = sum(one.holds for one in made)
        print(f"{time.strftime('%H:%M:%S')} {words}: {held} of {len(made)} hold", flush=True)

    add("geometry", shapes.geometry())
    add("bodies", shapes.bodies())
    add("reactions and drops", shapes.human())
    add("flights", shapes.flights())
    found, plots = goals.all_goals()
    add("goal chances", found)
    add("rebounds", shapes.after_saves(tables.men_places()))
    found, tracked = plays.all_plays()
    plots["tracked"] = tracked
    add("reads", found)
    add("ray caster", shapes.ray_caster())
    return rows, plots


def band_plot(rows: list[Check], bands: tables.Bands, title: str, most: float) -> str:
    """Return goal chance by band: data with intervals, our line."""
    middles = [(a + b) / 2 for a, b in zip(bands.edges[:-1], bands.edges[1:], strict=True)]
    far = bands.edges[-1]
    is_far = bands.measure == "distance"
    plot = Plot(
        title,
        "distance to the goal, m" if is_far else "angle off the long axis, degrees",
        "goal chance of a shot on goal",
        (0.0, far),
        (0.0, most),
        range(0, 22, 3) if is_far else range(0, 91, 15),
        [most * n / 4 for n in range(5)],
    )
    for x, row in zip(middles, rows, strict=True):
        plot.interval(x, row.low + goals.CLOSE, row.high - goals.CLOSE)
        plot.point(x, min(row.theirs, most), filled=row.role is Role.FITTED)
    plot.line(middles, [row.ours for row in rows], colour=ADVICE)
    plot.legend = [
        ("data, fitted", sample_point(True)),
        ("data, check", sample_point(False)),
        ("tendline", sample_line(ADVICE)),
    ]
    return plot.svg()


def parts_plot(plots: dict[str, object]) -> str:
    """Return what ordinary play is made of, straight in front, by distance."""
    from tendline.shot import ordinary_chance

    x = np.linspace(1.5, 21.0, 40)
    found = ordinary_chance(x, np.zeros_like(x), grid=goals.GRID)
    plot = Plot(
        "What a shot from straight in front is made of",
        "distance to the goal, m",
        "goal chance",
        (0.0, 21.0),
        (0.0, 0.6),
        range(0, 22, 3),
        (0, 0.2, 0.4, 0.6),
    )
    plot.line(x, found.chance, colour=ADVICE)
    plot.line(x, found.set_chance, colour=INK, dash="5 4")
    plot.line(x, found.off_spot_chance, colour=RISK, dash="2 3")
    plot.line(x, found.off_spot_share, colour=SOFT, dash="9 4")
    plot.legend = [
        ("in all", sample_line(ADVICE)),
        ("she is set", sample_line(INK, "5 4")),
        ("met off the spot", sample_line(RISK, "2 3")),
        ("share met off the spot", sample_line(SOFT, "9 4")),
    ]
    return plot.svg()


def depth_plot(shots: plays.TrackedShots) -> str:
    """Return her depth and ours for every tracked shot."""
    plot = Plot(
        "Depth when a shot is taken: tracked goaltenders and the engine",
        "distance of the puck, m",
        "depth along the puck's line, m",
        (0.0, 24.0),
        (0.0, 3.5),
        range(0, 25, 4),
        range(4),
    )
    for x, ours, theirs in zip(shots.distance, shots.ours, shots.theirs, strict=True):
        plot.dot(x, min(theirs, 3.5), colour=SOFT)
        plot.dot(x, min(ours, 3.5), colour=ADVICE)
    middles, our_line, their_line = [], [], []
    for low, high in plays.DISTANCES:
        inside = (shots.distance >= low) & (shots.distance < high)
        middles.append(float(np.median(shots.distance[inside])))
        our_line.append(float(np.median(shots.ours[inside])))
        their_line.append(float(np.median(shots.theirs[inside])))
    plot.line(middles, their_line, colour=SOFT, dash="5 4")
    plot.line(middles, our_line, colour=ADVICE)
    plot.legend = [
        ("tracked, medians", sample_line(SOFT, "5 4")),
        ("engine, medians", sample_line(ADVICE)),
    ]
    return plot.svg()


def all_plots(rows: list[Check], plots: dict[str, object]) -> list[str]:
    """Return every picture of the report."""
    of = {name: [row for row in rows if row.group == name] for name in BAND_GROUPS}
    men, women = plots["men_bands"], plots["women_bands"]
    return [
        band_plot(of["men, by distance"], men[0], "Men, NHL 2011-12, by distance", 0.3),
        band_plot(of["men, by angle"], men[1], "Men, NHL 2011-12, by angle", 0.16),
        band_plot(
            of["women, by distance"], women[0], "Women's league, by distance (not fitted)", 0.4
        ),
        band_plot(of["women, by angle"], women[1], "Women's league, by angle (not fitted)", 0.16),
        parts_plot(plots),
        depth_plot(plots["tracked"]),
    ]


def table_html(rows: list[Check]) -> str:
    """Return rows as an HTML table, group by group."""
    made = [
        '<div class="wide"><table><thead><tr><th>what</th><th>ours</th><th>outside figure</th>'
        "<th>allowed</th>"
        "<th>unit</th><th>holds</th><th>source and notes</th></tr></thead><tbody>"
    ]
    for group, members in groupby(rows, key=lambda one: one.group):
        made.append(f'<tr class="group"><th colspan="7">{escape(group)}</th></tr>')
        for row in members:
            notes = escape(f"{row.source}. {row.note}" if row.note else row.source)
            holds = "yes" if row.holds else "<b>no</b>"
            made.append(
                f"<tr><td>{escape(row.name)}</td><td>{row.ours:.4g}</td><td>{row.theirs:.4g}</td>"
                f"<td>{row.low:.4g} to "
                f"{row.high:.4g}</td><td>{escape(row.unit)}</td><td>{holds}</td>"
                f"<td>{notes}</td></tr>"
            )
    made.append("</tbody></table></div>")
    return "\n".join(made)


def counted(rows: list[Check], role: Role) -> tuple[int, int]:
    """Return how many rows of a role hold, and how many there are."""
    some = [row for row in rows if row.role is role]
    return sum(row.holds for row in some), len(some)


def write_html(rows: list[Check], pictures: list[str]) -> None:
    """Write the whole report as one page that needs nothing else."""
    checked = [row for row in rows if row.role is Role.CHECKED]
    fitted = [row for row in rows if row.role is Role.FITTED]
    style = (
        "body{font:16px/1.45 sans-serif;color:#1d2a33;background:#faf9f5;margin:2rem auto;"
        "max-width:70rem;padding:0 1rem}table{border-collapse:collapse;font-size:14px;width:100%}"
        "td,th{border-bottom:1px solid #c9d2d6;padding:.25rem .5rem;text-align:left}"
        ".group th{padding-top:1rem}.plots{display:grid;grid-template-columns:repeat(auto-fit,"
        "minmax(min(26rem,100%),1fr));gap:1rem}figure{margin:0}"
        "svg{background:#fff;max-width:100%;height:auto}.wide{overflow-x:auto}"
    )
    numbers = "".join(
        f"<tr><td>{escape(name)}</td><td>{row['value']:.4g}</td><td>{row['error']:.2g}</td></tr>"
        for name, row in FITTED["fitted"].items()
    )
    held, all_ = counted(rows, Role.CHECKED)
    page = [
        f'<!doctype html><html lang="en"><head><meta charset="utf-8">'
        "<title>tendline: validation</title>"
        f"<style>{style}</style></head><body><h1>Validation</h1>",
        f"<p>{held} of {all_} checks hold. A check compares a figure of the engine with one from "
        "outside the project that was not used to choose any of its numbers and is sure. Rows that "
        "chose a number, and rows that are only shown, stand apart at the end. A band of game data "
        "holds when ours lies in its 95 % interval or within 1.5 "
        "points of it.</p>",
        f'<div class="plots">{"".join(f"<figure>{one}</figure>" for one in pictures)}</div>',
        "<h2>Checks</h2>",
        table_html(checked),
        "<h2>Rows that chose a number</h2>",
        table_html(fitted),
        "<h2>Shown only</h2><p>Weak sources, figures from memory, and rows that fitted ones imply: "
        "they are here to be seen and count as nothing.</p>",
        table_html([row for row in rows if row.role is Role.SHOWN]),
        "<h2>Fitted "
        "numbers</h2><table><thead><tr><th>number</th><th>value</th><th>standard error</th>"
        f"</tr></thead><tbody>{numbers}</tbody></table>",
        "<p>The numbers were fitted on men's elite games. That they hold for "
        "youth, with reaction by "
        "age, slower limbs and slower pucks, is an assumption: no table of "
        "youth shots by place was "
        "found. The women's league is a check of that transfer for grown "
        "players.</p></body></html>",
    ]
    (DOCS / "validation.html").write_text("\n".join(page))


def write_summary(rows: list[Check]) -> None:
    """Write the short page for readers of the docs."""
    held, all_ = counted(rows, Role.CHECKED)
    fit_held, fit_all = counted(rows, Role.FITTED)
    lines = [
        "# Validation",
        "",
        "<!-- Written by studies/calibration/report.py; edit that, not this. -->",
        "",
        f"{held} of {all_} checks hold, against figures from outside the "
        f"project that chose none of "
        "our numbers. All rows with their sources, and the plots, are in "
        "[validation.html](validation.html).",
        "",
        f"{fit_all} more rows chose numbers, by fit or by being taken over ({fit_held} of them are "
        f"met), and {counted(rows, Role.SHOWN)[1]} are only shown because their source is weak or "
        "fitted rows imply them. They prove nothing and are kept apart.",
        "",
        "| group | checks that hold | of |",
        "|---|---|---|",
    ]
    checked = [row for row in rows if row.role is Role.CHECKED]
    for group, members in groupby(checked, key=lambda one: one.group):
        some = list(members)
        lines.append(f"| {group} | {sum(row.holds for row in some)} | {len(some)} |")
    lines += ["", "## What does not hold", ""]
    misses = [row for row in checked if not row.holds]
    lines += [
        f"- {row.group}, {row.name}: ours {row.ours:.3g}, outside figure "
        f"{row.theirs:.3g} {row.unit} "
        f"({row.source})."
        for row in misses
    ] or ["Nothing."]
    lines += [
        "",
        "## How to read it",
        "",
        "- Game data by band: ours must lie in the band's 95 % interval or "
        "within 1.5 points of it. "
        "The men's bands used for the fit are every second one, counted from the first.",
        "- Bands by distance and by angle count the same shots twice; the women's league is the "
        "independent test. Nothing was fitted to it: only the pucks are slower, the limbs a little "
        "slower and the goaltender smaller.",
        "- The fitted numbers come from men's elite games. Carrying them to youth is an assumption "
        "(reaction by the measured ratio of ages, assumed quickness and aim); "
        "nothing published tests it.",
        "- The tracked goaltenders' places are good to about 0.3 m. They are "
        "where she was, not where "
        "she should have been. Between 6 and 11 m the three sets differ by 0.6 m; against pucks "
        "beyond 11 m a wide range of depths costs almost the same, and the middle of it is "
        "advised.",
        "",
        "Made again with `python studies/calibration/fit.py` and "
        "`python studies/calibration/report.py` where the open data lie beside the repository.",
        "",
    ]
    (DOCS / "validation.md").write_text("\n".join(lines))


def write_raw(rows: list[Check]) -> None:
    """Write every row as numbers."""
    with (RAW / "checks.csv").open("w", newline="") as file:
        writer = csv.writer(file, lineterminator="\n")
        writer.writerow(
            ("group", "name", "role", "ours", "outside", "low", "high", "unit", "holds", "source")
        )
        for row in rows:
            writer.writerow(
                (
                    row.group,
                    row.name,
                    row.role.value,
                    f"{row.ours:.6g}",
                    f"{row.theirs:.6g}",
                    f"{row.low:.6g}",
                    f"{row.high:.6g}",
                    row.unit,
                    "yes" if row.holds else "no",
                    row.source,
                )
            )


def main() -> int:
    """Gather every row, write the three outputs, say what does not hold."""
    argparse.ArgumentParser(description=__doc__.splitlines()[0]).parse_args()
    if not tables.OPEN_DATA.is_dir():
        sys.exit("The report needs the open game data in ../shared/data beside the repository.")
    rows, plots = gathered()
    DOCS.mkdir(parents=True, exist_ok=True)
    RAW.mkdir(parents=True, exist_ok=True)
    write_html(rows, all_plots(rows, plots))
    write_summary(rows)
    write_raw(rows)
    for row in rows:
        if not row.holds:
            print(
                f"does not hold ({row.role.value}): {row.group}, {row.name}: {row.ours:.4g} "
                f"not in {row.low:.4g} to {row.high:.4g}"
            )
    print(
        "{} of {} checks hold; {} of {} fitted rows".format(
            *counted(rows, Role.CHECKED), *counted(rows, Role.FITTED)
        )
    )
    return 0


if __name__ == "__main__":
    sys.exit(main())
