// The ice on which a drill is written: put somebody down, drag him, draw where he goes.
// This file draws and collects; the program turns what was meant into lines of the script.

const SVG = "http://www.w3.org/2000/svg";
const NUDGE = 0.1;
const BIG_NUDGE = 0.5;
const REACH = 0.75;
const SLACK_MOUSE = 4;
const SLACK_TOUCH = 9;
const LEAST_PATH = 1.5;
const STRAY = 0.45;
const MOST_POINTS = 6;
const PAUSE = 220;

const round = (metres) => Math.round(metres * 10) / 10 + 0;
export const asPlace = ({ name, x, y }) => name ?? `(${round(x)}, ${round(y)})`;

// Fewest points of a drawn way that stay within STRAY of it (the ends are not among them).
const simplified = (points) => {
  const keep = new Set([0, points.length - 1]);
  const work = (first, last) => {
    let worst = STRAY;
    let where = -1;
    const [a, b] = [points[first], points[last]];
    const length = Math.hypot(b.x - a.x, b.y - a.y) || 1e-9;
    for (let k = first + 1; k < last; k += 1) {
      const away = Math.abs((b.x - a.x) * (a.y - points[k].y) - (a.x - points[k].x) * (b.y - a.y)) / length;
      if (away > worst) [worst, where] = [away, k];
    }
    if (where < 0) return;
    keep.add(where);
    work(first, where);
    work(where, last);
  };
  work(0, points.length - 1);
  const inner = [...keep].sort((p, q) => p - q).slice(1, -1);
  const step = Math.ceil(inner.length / MOST_POINTS) || 1;
  return inner.filter((_, index) => index % step === 0).map((index) => points[index]);
};

export class Ice {
  #root;
  #editor;
  #held = null;
  #drawn = null;
  #nudged = null;
  #timer = 0;
  #fresh = null;

  constructor(root, editor) {
    this.#root = root;
    this.#editor = editor;
    this.snaps = true;
    root.addEventListener("pointerdown", (event) => this.#grab(event));
    root.addEventListener("pointermove", (event) => this.#drag(event));
    root.addEventListener("pointerup", (event) => this.#drop(event));
    root.addEventListener("pointercancel", () => this.leave());
    // What is taken hold of must not scroll the page; signs inside a picture need this said.
    root.addEventListener(
      "touchstart",
      (event) => {
        const takes = event.target.closest(".tl-handle, .tl-person, .tl-thing");
        if (takes || this.#editor.adding || this.#editor.aim) event.preventDefault();
      },
      { passive: false },
    );
    root.addEventListener("keydown", (event) => this.#key(event));
    root.addEventListener("focusin", (event) => {
      const name = event.target.closest("[data-name]")?.dataset.name;
      if (name && event.target.matches(":focus-visible") && !this.#held) this.#editor.choose(name);
    });
  }

  get busy() {
    return this.#held !== null || this.#drawn !== null;
  }

  get #svg() {
    return this.#root.querySelector("svg");
  }

  // Takes a fresh picture; while something is held only what follows it is exchanged.
  show(html) {
    const drawn = new DOMParser().parseFromString(html, "text/html").querySelector("svg");
    if (!drawn) return;
    const own = this.#svg;
    if (own && this.busy) {
      own.querySelector(".tl-answer")?.replaceWith(drawn.querySelector(".tl-answer"));
      this.#fresh = html;
      return;
    }
    const key = this.#keyOf(document.activeElement?.closest?.(".desk-ice [tabindex]"));
    if (own) own.replaceWith(drawn);
    else this.#root.append(drawn);
    if (this.#nudged) this.#put(this.#find(this.#nudged.key), this.#nudged);
    if (key) this.#find(key)?.focus({ preventScroll: true });
  }

  choose(chosen) {
    for (const one of this.#root.querySelectorAll("[aria-pressed]")) {
      const name = one.dataset.name ?? `row ${one.dataset.row}`;
      one.setAttribute("aria-pressed", String(name === chosen));
    }
  }

  focus(name) {
    this.#root.querySelector(`[data-name="${CSS.escape(name)}"]`)?.focus({ preventScroll: true });
  }

  leave() {
    this.#held = null;
    this.#drawn = null;
    this.#overlay()?.remove();
    if (this.#fresh) {
      const html = this.#fresh;
      this.#fresh = null;
      this.show(html);
    }
  }

  #keyOf(node) {
    if (!node) return "";
    const { name, row, index, kind } = node.dataset;
    if (name !== undefined) return `[data-name="${CSS.escape(name)}"]`;
    if (index !== undefined) return `.tl-handle[data-row="${row}"][data-index="${index}"][data-kind="${kind}"]`;
    return row === undefined ? "" : `.tl-row[data-row="${row}"]`;
  }

  #find(key) {
    return key ? this.#root.querySelector(key) : null;
  }

  // Places ------------------------------------------------------------------------------------

  #point(event) {
    const inside = new DOMPoint(event.clientX, event.clientY).matrixTransform(this.#svg.getScreenCTM().inverse());
    const { x, y, width, height } = this.#svg.viewBox.baseVal;
    return {
      x: -Math.min(Math.max(inside.y, y), y + height),
      y: -Math.min(Math.max(inside.x, x), x + width),
    };
  }

  placeAt(event, but = "") {
    const point = this.#point(event);
    return this.#snapped(point, event.altKey, but);
  }

  #snapped(point, free, but) {
    if (free || !this.snaps) return point;
    let best = { away: REACH };
    for (const [name, x, y] of this.#editor.places) {
      const away = Math.hypot(x - point.x, y - point.y);
      if (away < best.away && name !== but) best = { away, name, x, y };
    }
    return best.name ? { name: best.name, x: best.x, y: best.y } : point;
  }

  #put(node, { x, y }) {
    node?.setAttribute("transform", `translate(${-y} ${-x})`);
  }

  #where(node) {
    const [, sx, sy] = /translate\((\S+) (\S+)\)/.exec(node.getAttribute("transform")) ?? [];
    return { x: -Number(sy), y: -Number(sx) };
  }

  // Taking hold -------------------------------------------------------------------------------

  #grab(event) {
    if (event.button > 0 || !this.#svg || this.#editor.previewing) return;
    this.#settle();
    if (this.#editor.adding || this.#editor.aim) {
      event.preventDefault();
      this.#root.setPointerCapture(event.pointerId);
      this.#drawn = { points: [this.#point(event)], start: event, target: event.target };
      this.#mark(this.placeAt(event));
      return;
    }
    const node = event.target.closest(".tl-handle, .tl-person, .tl-thing, .tl-row");
    if (!node) {
      this.#editor.choose("");
      return;
    }
    event.preventDefault();
    node.focus({ preventScroll: true });
    const moves = !node.classList.contains("tl-row");
    this.#held = { node, key: this.#keyOf(node), start: event, moves, moved: false, home: moves ? this.#where(node) : null };
    if (moves) this.#root.setPointerCapture(event.pointerId);
  }

  #slack(event, from) {
    const least = event.pointerType === "mouse" ? SLACK_MOUSE : SLACK_TOUCH;
    return Math.hypot(event.clientX - from.clientX, event.clientY - from.clientY) < least;
  }

  #drag(event) {
    if (this.#drawn) {
      this.#draw(event);
      return;
    }
    const held = this.#held;
    if (!held) {
      if (event.pointerType === "mouse" && (this.#editor.adding || this.#editor.aim)) this.#mark(this.placeAt(event));
      return;
    }
    if (!held.moves || (!held.moved && this.#slack(event, held.start))) return;
    held.moved = true;
    this.#root.classList.add("holding");
    held.place = this.placeAt(event, held.node.dataset.name ?? "");
    const under = held.node.dataset.whom ? this.#personUnder(event) : "";
    if (under) held.place = { ...held.place, name: under };
    this.#put(this.#find(held.key) ?? held.node, held.place);
    this.#mark(held.place);
    this.#editor.tryOut(this.#moveEdit(held.node, held.place));
  }

  #personUnder(event) {
    const found = document.elementsFromPoint(event.clientX, event.clientY).map((one) => one.closest(".desk-ice .tl-person"));
    return found.find((one) => one)?.dataset.name ?? "";
  }

  #moveEdit(node, place) {
    const at = asPlace(place);
    const { name, row, index, kind } = node.dataset;
    if (name !== undefined) return { do: "move", what: name, at };
    return { do: kind === "between" ? "add point" : "move point", row: Number(row), index: Number(index), at };
  }

  #drop(event) {
    this.#root.classList.remove("holding");
    if (this.#drawn) {
      this.#placed(event);
      return;
    }
    const held = this.#held;
    if (!held) return;
    this.#held = null;
    this.#fresh = null;
    this.#overlay()?.remove();
    const { name, row } = held.node.dataset;
    const chosen = name ?? `row ${row}`;
    if (held.moved) this.#editor.edit(this.#moveEdit(held.node, held.place), { chosen });
    else this.#editor.choose(chosen);
  }

  // Putting down and drawing ------------------------------------------------------------------

  #draw(event) {
    const { points } = this.#drawn;
    const point = this.#point(event);
    const last = points.at(-1);
    if (Math.hypot(point.x - last.x, point.y - last.y) > 0.15) points.push(point);
    this.#mark(this.placeAt(event), this.#editor.aim?.path ? points : null);
  }

  #placed(event) {
    const { points, start, target } = this.#drawn;
    this.#drawn = null;
    this.#overlay()?.remove();
    const place = this.placeAt(event);
    const aim = this.#editor.aim;
    if (!aim) {
      this.#editor.hand.putDown(asPlace(place));
      return;
    }
    const tapped = this.#slack(event, start);
    const under = tapped ? target : document.elementFromPoint(event.clientX, event.clientY);
    const name = under?.closest?.(".tl-person")?.dataset.name;
    if (name && name !== aim.who && (aim.aims === "either" || aim.aims === "person")) {
      this.#editor.hand.aimAt(name);
      return;
    }
    if (aim.aims === "person") {
      this.#editor.say(`Tap somebody: ${aim.who} ${aim.verb} whom?`, "risk");
      return;
    }
    const length = points.slice(1).reduce((sum, p, k) => sum + Math.hypot(p.x - points[k].x, p.y - points[k].y), 0);
    const via = aim.path && !tapped && length > LEAST_PATH ? simplified([...points, place]) : [];
    this.#editor.hand.aimAt(asPlace(place), via.map((one) => asPlace(one)));
  }

  // What the finger is over: a ring, the name of the place, and the way drawn so far.
  #mark(place, points = null) {
    const layer = this.#overlay(true);
    if (!layer) return;
    const unit = this.#svg.viewBox.baseVal.width / Math.max(this.#svg.clientWidth, 1);
    const [ring, words, way] = layer.children;
    ring.setAttribute("cx", -place.y);
    ring.setAttribute("cy", -place.x);
    ring.setAttribute("r", (place.name ? 12 : 7) * unit);
    ring.setAttribute("stroke-width", 2 * unit);
    words.textContent = place.name ?? `${round(place.x).toFixed(1)} m out, ${Math.abs(round(place.y)).toFixed(1)} m ${place.y < 0 ? "right" : "left"}`;
    const { x, width, y } = this.#svg.viewBox.baseVal;
    const half = words.textContent.length * 4.4 * unit;
    words.setAttribute("x", Math.min(Math.max(-place.y, x + half), x + width - half));
    words.setAttribute("y", Math.max(-place.x - 44 * unit, y + 18 * unit));
    words.setAttribute("font-size", 17 * unit);
    words.setAttribute("stroke-width", 5 * unit);
    way.setAttribute("d", points ? `M${points.map((p) => `${-p.y} ${-p.x}`).join("L")}` : "");
    way.setAttribute("stroke-width", 2 * unit);
  }

  #overlay(make = false) {
    const found = this.#root.querySelector(".desk-overlay");
    if (found || !make || !this.#svg) return found;
    const layer = document.createElementNS(SVG, "g");
    layer.setAttribute("class", "desk-overlay");
    for (const name of ["circle", "text", "path"]) layer.append(document.createElementNS(SVG, name));
    this.#svg.append(layer);
    return layer;
  }

  // Keys --------------------------------------------------------------------------------------

  #key(event) {
    const node = event.target.closest(".tl-handle, .tl-person, .tl-thing, .tl-row");
    if (!node || event.ctrlKey || event.metaKey) return;
    const way = { ArrowUp: [1, 0], ArrowDown: [-1, 0], ArrowLeft: [0, 1], ArrowRight: [0, -1] }[event.key];
    if (way && !node.classList.contains("tl-row")) {
      event.preventDefault();
      this.#nudge(node, way, event.shiftKey ? BIG_NUDGE : NUDGE);
    } else if (event.key === "Enter" || event.key === " ") {
      event.preventDefault();
      this.#editor.choose(node.dataset.name ?? `row ${node.dataset.row}`);
    } else if (event.key === "Delete" || event.key === "Backspace") {
      event.preventDefault();
      this.#remove(node);
    }
  }

  #remove(node) {
    const { name, row, index, kind } = node.dataset;
    if (name !== undefined) this.#editor.edit({ do: "remove", what: name });
    else if (kind === "point") this.#editor.edit({ do: "remove point", row: Number(row), index: Number(index) });
    else this.#editor.edit({ do: "remove line", row: Number(row) });
  }

  #nudge(node, way, step) {
    if (this.#editor.previewing) return;
    const here = this.#where(node);
    const place = { x: round(here.x + way[0] * step), y: round(here.y + way[1] * step) };
    this.#put(node, place);
    this.#nudged = { key: this.#keyOf(node), ...place, edit: this.#moveEdit(node, place), name: node.dataset.name };
    this.#editor.tryOut(this.#nudged.edit);
    clearTimeout(this.#timer);
    this.#timer = setTimeout(() => this.#settle(), PAUSE);
  }

  // A nudge is written when the keys rest, or when something else begins.
  #settle() {
    clearTimeout(this.#timer);
    const nudged = this.#nudged;
    if (!nudged) return;
    this.#nudged = null;
    this.#editor.edit(nudged.edit, { chosen: nudged.name, merge: `nudge ${nudged.key}` });
  }
}
