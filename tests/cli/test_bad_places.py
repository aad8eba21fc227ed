"""Places, statures and speeds that cannot be: one line that names who, what came and what may."""

import pytest
from click.testing import CliRunner

from tendline.cli.main import main


@pytest.mark.parametrize(
    ("words", "parts"),
    [
        (["--", "-0.3,0:left"], ("F1", "inside the net", "-0.3 m")),
        (["--", "-9,0"], ("F1", "distance out is out of range", "-9 m")),
        (["90,0"], ("F1", "distance out is out of range", "90 m")),
        (["8,40"], ("F1", "out of range", "40 m")),
        (["nan,0"], ("F1", "nan,0")),
        (["inf,0"], ("F1", "inf,0")),
        (["8,0@nan,0"], ("F1", "8,0@nan,0")),
        (["8,0@-500,0"], ("F1", "speed out is out of range", "-500 m/s")),
        (["8,0", "--mate", "-0.3,0.2"], ("F2", "inside the net")),
        (["8,0", "--mate", "nan,3"], ("F2", "nan,3")),
        (["8,0", "--defender", "inf,0"], ("D1", "inf,0")),
        (["8,0", "--stature", "0.5"], ("stature is out of range", "0.5 m", "0.95 to 2.2 m")),
        (["8,0", "--stature", "3"], ("stature is out of range", "3 m", "0.95 to 2.2 m")),
        (["8,0", "--stature", "nan"], ("stature is out of range", "nan m")),
        (["8,0", "--stature", "-1.7"], ("stature is out of range", "-1.7 m")),
    ],
)
def test_a_read_of_what_cannot_be_is_refused_in_words(words: list[str], parts: tuple[str, ...]):
    result = CliRunner().invoke(main, ["read", *words])
    assert result.exit_code != 0
    assert "Traceback" not in result.output
    for part in parts:
        assert part in result.output, result.output
