"""Ask where to stand against a two-on-one, print the answer, and draw it.

Run: python examples/read_the_play.py [FILE.png]
"""

import sys
from pathlib import Path

from tendline.base import Level, Side
from tendline.draw import situation_svg, svg_to_png
from tendline.play import Attacker, Defender
from tendline.work.reading import Question, ask

rush = Question(
    attackers=(
        Attacker(name="F1", x=5.0, y=-4.0, hand=Side.LEFT),
        Attacker(name="F2", x=5.2, y=3.4, hand=Side.RIGHT),
    ),
    defenders=(Defender(name="D1", x=4.4, y=0.0),),
    level=Level.U18,
    stature=1.70,
)
answer = ask(rush)
print(*answer.answer, sep="\n")
for option in answer.options:
    state = "set" if option.is_set else "not set"
    print(f"- {option}, she is {state}")
if len(sys.argv) > 1:
    Path(sys.argv[1]).write_bytes(svg_to_png(situation_svg(answer, width=640), width=1280))
