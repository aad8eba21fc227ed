"""Write the README's example output and picture anew. Run from the repository's root."""

import re
import subprocess
import sys
from pathlib import Path

PICTURE = "docs/pictures/read-the-play.png"

text = Path("README.md").read_text()
script = re.search(r"<!-- example: (\S+) -->", text)[1]
output = subprocess.run(
    [sys.executable, script, PICTURE], capture_output=True, text=True, check=True
).stdout
block = f"<!-- example: {script} -->\n```text\n{output}```\n<!-- end -->"
Path("README.md").write_text(
    re.sub(r"<!-- example: .*?<!-- end -->", lambda _: block, text, flags=re.S)
)
