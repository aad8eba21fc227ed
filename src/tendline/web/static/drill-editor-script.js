// The script beside the ice: always there, always editable; faults stand at their line.

export class ScriptBox {
  #area;
  #gutter;
  #faults;
  #marked = new Map();
  #chosen = 0;
  #count = 0;

  constructor(root, { typed, step, atLine }) {
    this.#area = root.querySelector("[data-script]");
    this.#gutter = root.querySelector("[data-gutter]");
    this.#faults = root.querySelector("[data-faults]");
    this.#area.addEventListener("input", () => {
      this.#number();
      typed(this.#area.value);
    });
    this.#area.addEventListener("scroll", () => this.#follow());
    this.#area.addEventListener("keydown", (event) => {
      if (!(event.ctrlKey || event.metaKey)) return;
      const key = event.key.toLowerCase();
      if (key !== "z" && key !== "y") return;
      event.preventDefault();
      step(key === "y" || event.shiftKey ? "redo" : "undo");
    });
    for (const name of ["click", "keyup"]) {
      this.#area.addEventListener(name, (event) => {
        if (name === "keyup" && !/^(Arrow|Page|Home|End)/.test(event.key)) return;
        atLine(this.#caretLine());
      });
    }
    this.#faults.addEventListener("click", (event) => {
      const go = event.target.closest("[data-line]");
      if (go) this.goTo(Number(go.dataset.line));
      const mend = event.target.closest("[data-mended]");
      if (mend) this.#mend(Number(mend.dataset.at), mend.dataset.mended, typed);
    });
    this.#number();
  }

  get value() {
    return this.#area.value;
  }

  get focused() {
    return document.activeElement === this.#area;
  }

  set readOnly(on) {
    this.#area.readOnly = on;
  }

  // Writes a script into the box; the caret stays on its line.
  put(script) {
    if (this.#area.value === script) return;
    const line = this.#caretLine();
    const column = this.#area.selectionStart - this.#startOf(this.#area.value, line);
    const { scrollTop, scrollLeft } = this.#area;
    this.#area.value = script;
    if (this.focused) {
      const place = Math.min(this.#startOf(script, line) + column, script.length);
      this.#area.setSelectionRange(place, place);
    }
    this.#area.scrollTop = scrollTop;
    this.#area.scrollLeft = scrollLeft;
    this.#number();
  }

  // Marks lines in the margin: "fault", "changed"; and shows the faults below.
  mark(kind, lines) {
    for (const [line, old] of this.#marked) if (old === kind) this.#marked.delete(line);
    for (const line of lines) this.#marked.set(line, kind);
    this.#paint();
  }

  showFaults(faults) {
    this.mark("fault", faults.map((one) => one.line));
    this.#faults.replaceChildren(...faults.map((one) => this.#fault(one)));
  }

  choose(line) {
    this.#chosen = line;
    this.#paint();
    if (line && !this.focused) this.#show(line);
  }

  goTo(line) {
    const start = this.#startOf(this.#area.value, line);
    const text = this.#area.value.slice(start).split("\n", 1)[0];
    this.#area.focus();
    this.#area.setSelectionRange(start, start + text.length);
    this.#show(line);
  }

  #fault(one) {
    const box = document.createElement("div");
    const go = document.createElement("button");
    go.type = "button";
    go.className = "quiet risk";
    go.dataset.line = one.line;
    go.textContent = `Line ${one.line}`;
    const words = [one.asked, one.came && `it says ${one.came}`].filter(Boolean).join("; ");
    box.append(go, ` ${words}. ${one.hint}`);
    if (one.mended) {
      const mend = document.createElement("button");
      mend.type = "button";
      mend.dataset.mended = one.mended;
      mend.dataset.at = one.line;
      mend.textContent = "Put it right";
      box.append(" ", mend);
    }
    if (one.allowed) {
      const allowed = document.createElement("p");
      allowed.className = "small soft";
      allowed.textContent = `Allowed: ${one.allowed}`;
      box.append(allowed);
    }
    return box;
  }

  #mend(line, text, typed) {
    const lines = this.#area.value.split("\n");
    lines[line - 1] = text;
    this.#area.value = lines.join("\n");
    this.#number();
    typed(this.#area.value, true);
  }

  #caretLine() {
    return this.#area.value.slice(0, this.#area.selectionStart).split("\n").length;
  }

  #startOf(text, line) {
    let place = 0;
    for (let k = 1; k < line; k += 1) {
      const next = text.indexOf("\n", place);
      if (next < 0) break;
      place = next + 1;
    }
    return place;
  }

  #show(line) {
    const height = this.#area.scrollHeight / Math.max(this.#count, 1);
    const top = (line - 1) * height;
    const { scrollTop, clientHeight } = this.#area;
    if (top < scrollTop + height || top > scrollTop + clientHeight - 2 * height) {
      this.#area.scrollTop = Math.max(0, top - clientHeight / 2);
    }
    this.#follow();
  }

  #number() {
    const count = this.#area.value.split("\n").length;
    if (count !== this.#count) {
      this.#count = count;
      while (this.#gutter.children.length > count) this.#gutter.lastChild.remove();
      while (this.#gutter.children.length < count) {
        const item = document.createElement("li");
        item.textContent = this.#gutter.children.length + 1;
        this.#gutter.append(item);
      }
      this.#paint();
    }
    this.#follow();
  }

  #paint() {
    [...this.#gutter.children].forEach((item, index) => {
      item.className = [this.#marked.get(index + 1) ?? "", index + 1 === this.#chosen ? "chosen" : ""].join(" ").trim();
    });
  }

  #follow() {
    this.#gutter.scrollTop = this.#area.scrollTop;
  }
}

// Lines of the second script that the first does not have (by longest common part).
export const changedLines = (before, after) => {
  const a = before.split("\n");
  const b = after.split("\n");
  const table = Array.from({ length: a.length + 1 }, () => new Uint16Array(b.length + 1));
  for (let i = a.length - 1; i >= 0; i -= 1) {
    for (let j = b.length - 1; j >= 0; j -= 1) {
      table[i][j] = a[i] === b[j] ? table[i + 1][j + 1] + 1 : Math.max(table[i + 1][j], table[i][j + 1]);
    }
  }
  const found = [];
  for (let i = 0, j = 0; j < b.length; ) {
    if (i < a.length && a[i] === b[j]) {
      i += 1;
      j += 1;
    } else if (i < a.length && table[i + 1][j] >= table[i][j + 1]) {
      i += 1;
    } else {
      found.push(j + 1);
      j += 1;
    }
  }
  return found;
};
