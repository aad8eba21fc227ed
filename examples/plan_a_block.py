"""Tonight's ten minutes for the demo club: what the games cost, which two drills, and why.

Run: python examples/plan_a_block.py
"""

from tendline.practice import PlanKind
from tendline.work.demo import open_demo
from tendline.work.tonight import Evening, tonight

with open_demo() as store:
    made = tonight(store, Evening(kind=PlanKind.BLOCK, minutes=10))

for sentence in made.answer:
    print(sentence)
for segment in made.sheet.segments:
    print(f"{segment.begin:%H:%M} {segment.title}")
    for line in segment.lines:
        print(f"      {line.name}: {line.text}")
    for reason in segment.reasons:
        print(f"      why: {reason}")
