"""A few small drills that the tests of this package share; invented."""

HEAD = """\
drill {id}: {title}
family: team drills
kind: {kind}
themes: save technique
ages: U15 and up
level: adult
minutes: 8
ice: half ice
goaltenders: 1
skaters: 6 to 12

purpose: Try something.
aim of the shooters: Hit the net.
aim of the goaltender: Stop it.

next: {next}
repeat: {repeat}
sides: {sides}
"""


def script(play, people="", *, id="T01", title="Sample", kind="technique",
           next="when the rebound is cleared", repeat="6 x 2, rest 35 s",
           sides="straight in front"):  # fmt: skip
    """Return the script of a drill from its people and play lines (without indentation)."""
    text = HEAD.format(id=id, title=title, kind=kind, next=next, repeat=repeat, sides=sides)
    if people:
        text += "\npeople\n" + "".join(f"  {line}\n" for line in people.strip("\n").split("\n"))
    return text + "\nplay\n" + "".join(f"  {line}\n" for line in play.strip("\n").split("\n"))


THREE_SHOTS = script(
    """\
at the whistle: F1 carries to cone A
3.2 s after the whistle: F1 shoots
F1 skates to cone B
1.6 s after the shot: F1 shoots
F1 skates to cone C
1.6 s after the shot: F1 shoots
""",
    """\
cone A at (12, 0)
cone B at (9, 0)
cone C at (6, 0)
F1 at (22, 0), with a puck
""",
    id="T91", title="Three shots in a row", next="on the shot", repeat="until the time is up",
)  # fmt: skip
"""The worked check of the brief: cones at 12, 9 and 6 m, the next skater on the third shot."""

ONE_SHOT = script("at the whistle: F1 shoots low blocker", "F1 at (9, 2), with a puck")
PASS_AND_SHOT = script(
    """\
at the whistle: F1 passes to F2
when F2 has the puck: F2 stops 1 s
F2 shoots
""",
    """\
F1 at left dot, shoots left, with a puck
F2 at right dot, shoots right
""",
)
