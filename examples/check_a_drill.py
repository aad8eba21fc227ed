"""A head coach's three-shot drill: what it does to the goaltender, and what each repair costs.

Run: python examples/check_a_drill.py
"""

from pathlib import Path

from tendline.drill import check_drill, parse_drill, repairs, simulate, standing, verdict

drill = parse_drill(Path(__file__).with_name("three_shots.drill").read_text("utf-8"))
run = simulate(drill)
findings = check_drill(drill, run)

print(verdict(run, findings))
print(f"{run.shots_total:.0f} shots in {run.minutes:.0f} minutes")
for shot in run.releases:
    print(
        f"  shot {shot.number} at {shot.time:.1f} s from {shot.distance:.0f} m: "
        f"{shot.state.value}, {shot.sight:.1f} s of sight, {shot.gap:.1f} s to the next"
    )
for finding in standing(findings):
    print(f"  {finding.level.value}: {finding.words}")
for repair in repairs(drill):
    left = ", ".join(repair.leaves) or "nothing"
    print(f"{repair.name}: {repair.price.words}; still open: {left}")
