// The time line: take a bar by its start or its end; drop a start on another bar to wait for that one.

const STEP = 0.1;
const SLACK = 4;

export class TimeLine {
  #root;
  #editor;
  #held = null;

  constructor(root, editor) {
    this.#root = root;
    this.#editor = editor;
    root.addEventListener("pointerdown", (event) => this.#grab(event));
    root.addEventListener("pointermove", (event) => this.#drag(event));
    root.addEventListener("pointerup", (event) => this.#drop(event));
    root.addEventListener("pointercancel", () => this.#leave());
    root.addEventListener(
      "touchstart",
      (event) => {
        if (event.target.closest("[data-edge]")) event.preventDefault();
      },
      { passive: false },
    );
    root.addEventListener("keydown", (event) => this.#key(event));
    root.addEventListener("click", (event) => {
      const way = event.target.closest("[data-way]");
      if (way) editor.setWay(way.dataset.way);
    });
  }

  get busy() {
    return this.#held !== null && this.#held.moved;
  }

  leave() {
    this.#leave();
  }

  choose(chosen) {
    for (const bar of this.#root.querySelectorAll(".tl-bar")) {
      bar.setAttribute("aria-pressed", String(`row ${bar.dataset.row}` === chosen));
    }
  }

  get #svg() {
    return this.#root.querySelector("svg");
  }

  #values() {
    const { left, scale, top, row } = this.#svg.dataset;
    return { left: Number(left), scale: Number(scale), top: Number(top), row: Number(row) };
  }

  #inside(event) {
    return new DOMPoint(event.clientX, event.clientY).matrixTransform(this.#svg.getScreenCTM().inverse());
  }

  #grab(event) {
    const bar = event.target.closest(".tl-bar");
    if (!bar || event.button > 0 || this.#editor.previewing) return;
    const edge = event.target.closest("[data-edge]")?.dataset.edge ?? "";
    const { begin, end } = bar.dataset;
    this.#held = { bar, edge, begin: Number(begin), end: Number(end), from: this.#inside(event), moved: false, link: null };
    if (edge) {
      event.preventDefault();
      this.#root.setPointerCapture(event.pointerId);
    }
    bar.focus({ preventScroll: true });
  }

  #drag(event) {
    const held = this.#held;
    if (!held?.edge) return;
    const at = this.#inside(event);
    const dx = at.x - held.from.x;
    const dy = at.y - held.from.y;
    if (!held.moved && Math.hypot(dx, dy) < SLACK) return;
    held.moved = true;
    const { scale } = this.#values();
    held.time = Math.max(0, Math.round((held[held.edge === "end" ? "end" : "begin"] + dx / scale) / STEP) * STEP);
    held.link = held.edge === "start" ? this.#barUnder(at, held) : null;
    this.#show();
    if (!held.link) this.#editor.tryOut(this.#edit());
  }

  #barUnder(at, held) {
    const { row, top, left, scale } = this.#values();
    const bars = [...this.#root.querySelectorAll(".tl-bar")];
    const index = Math.floor((at.y - top) / row);
    const own = bars.indexOf(held.bar);
    if (index < 0 || index >= own) return null;
    const bar = bars[index];
    const middle = left + ((Number(bar.dataset.begin) + Number(bar.dataset.end)) / 2) * scale;
    return { row: Number(bar.dataset.row), starts: at.x < middle, bar };
  }

  #edit() {
    const { bar, edge, time, link } = this.#held;
    const row = Number(bar.dataset.row);
    if (link) return { do: "link", row, source: link.row, starts: link.starts };
    return { do: edge === "end" ? "end at" : "start at", row, time: Math.round(time * 100) / 100 };
  }

  #show() {
    const { bar, edge, time, link, begin, end } = this.#held;
    const { left, scale } = this.#values();
    const low = edge === "end" ? begin : time;
    const high = edge === "end" ? Math.max(time, begin + STEP) : time + (end - begin);
    const shape = bar.querySelector(".tl-bar-shape");
    shape.setAttribute("x", left + low * scale);
    shape.setAttribute("width", Math.max(6, (high - low) * scale));
    for (const other of this.#root.querySelectorAll(".tl-bar")) {
      other.classList.toggle("tl-target", link?.bar === other);
    }
    const words = link
      ? `${link.starts ? "together with" : "after"}: ${link.bar.getAttribute("aria-label").split(",")[0]}`
      : `${edge === "end" ? "ends" : "starts"} at ${time.toFixed(1)} s`;
    this.#editor.say(words);
  }

  #drop() {
    const held = this.#held;
    if (!held) return;
    this.#held = null;
    if (held.moved) {
      this.#held = held;
      const edit = this.#edit();
      this.#held = null;
      this.#editor.edit(edit);
    } else {
      this.#editor.choose(`row ${held.bar.dataset.row}`);
    }
  }

  #leave() {
    if (!this.#held) return;
    this.#held = null;
    this.#editor.refresh();
  }

  #key(event) {
    const bar = event.target.closest(".tl-bar");
    if (!bar) return;
    const row = Number(bar.dataset.row);
    if (event.key === "Enter" || event.key === " ") {
      event.preventDefault();
      this.#editor.choose(`row ${row}`);
      return;
    }
    if (event.key === "Delete" || event.key === "Backspace") {
      event.preventDefault();
      this.#editor.edit({ do: "remove line", row });
      return;
    }
    const way = { ArrowLeft: -1, ArrowRight: 1 }[event.key];
    if (!way) return;
    event.preventDefault();
    const edge = event.shiftKey ? "end" : "begin";
    const time = Math.max(0, Number(bar.dataset[edge]) + way * STEP);
    this.#editor.edit({ do: event.shiftKey ? "end at" : "start at", row, time: Math.round(time * 100) / 100 }, { merge: `time ${row} ${edge}` });
  }
}
