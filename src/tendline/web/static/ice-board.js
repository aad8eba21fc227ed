// The ice that answers: drag or nudge a person, and the engine's answer follows.
// This file draws and collects; every number on the page comes from the server.

const NUDGE = 0.1;
const BIG_NUDGE = 0.5;
// After so long without a move [ms] the full answer is asked for: fine grid, spans, what moves it.
const QUIET = 1000;
const round = (metres) => Math.round(metres * 100) / 100;

class IceBoard extends HTMLElement {
  #people = new Map();
  #other = [];
  #past = [];
  #future = [];
  #dragged = null;
  #grip = { x: 0, y: 0 };
  #waiting = false;
  #again = false;

  connectedCallback() {
    this.#read(new URL(this.dataset.state, location.href).searchParams);
    this.addEventListener("pointerdown", (event) => this.#grab(event));
    this.addEventListener("pointermove", (event) => this.#drag(event));
    this.addEventListener("pointerup", (event) => this.#drop(event));
    this.addEventListener("pointercancel", (event) => this.#drop(event));
    // Who is taken hold of must not scroll the page, all else does: for signs inside a picture
    // touch-action is not enough.
    this.addEventListener(
      "touchstart",
      (event) => {
        const name = event.target.closest(".tl-person")?.dataset.name;
        if (this.#people.has(name)) event.preventDefault();
      },
      { passive: false },
    );
    this.addEventListener("keydown", (event) => this.#key(event));
    document.addEventListener("click", (event) => this.#command(event));
    document.addEventListener("change", (event) => this.#setting(event));
    document.addEventListener("keydown", (event) => this.#undoKey(event));
    this.#buttons();
  }

  #read(query) {
    this.#people.clear();
    this.#other = [];
    for (const [name, value] of query) {
      if (/^[FD][1-5]$/.test(name)) {
        const [x, y, hand] = value.split(",");
        this.#people.set(name, { x: Number(x), y: Number(y), hand });
      } else {
        this.#other.push([name, value]);
      }
    }
  }

  get query() {
    const query = new URLSearchParams();
    for (const name of [...this.#people.keys()].sort()) {
      const { x, y, hand } = this.#people.get(name);
      query.set(name, `${x.toFixed(2)},${y.toFixed(2)}${hand ? `,${hand}` : ""}`);
    }
    for (const [name, value] of this.#other) query.set(name, value);
    return query.toString().replaceAll("%2C", ",");
  }

  #place(event) {
    const svg = this.querySelector("svg");
    const point = new DOMPoint(event.clientX, event.clientY);
    const inside = point.matrixTransform(svg.getScreenCTM().inverse());
    return { x: round(-inside.y), y: round(-inside.x) };
  }

  #grab(event) {
    const person = event.target.closest(".tl-person");
    if (!person || !this.#people.has(person.dataset.name)) return;
    event.preventDefault();
    person.focus({ preventScroll: true });
    this.setPointerCapture(event.pointerId);
    this.#remember();
    this.#dragged = person.dataset.name;
    const at = this.#place(event);
    const { x, y } = this.#people.get(this.#dragged);
    this.#grip = { x: x - at.x, y: y - at.y };
    this.classList.add("dragging");
    document.body.classList.add("moving");
  }

  #drag(event) {
    if (!this.#dragged) return;
    this.#move(this.#dragged, this.#held(event));
  }

  // Where he is held: the finger takes him by the place where it touched him.
  #held(event) {
    const { x, y } = this.#place(event);
    return { x: round(x + this.#grip.x), y: round(y + this.#grip.y) };
  }

  #drop(event) {
    if (!this.#dragged) return;
    if (event.type === "pointerup") this.#move(this.#dragged, this.#held(event));
    this.#dragged = null;
    this.#ask();
    this.classList.remove("dragging");
    this.#buttons();
  }

  #move(name, { x, y }) {
    const limits = this.dataset;
    const person = this.#people.get(name);
    person.x = Math.min(Math.max(x, Number(limits.xLow)), Number(limits.xHigh));
    person.y = Math.min(Math.max(y, Number(limits.yLow)), Number(limits.yHigh));
    this.#show(name);
    this.#ask();
  }

  #show(name) {
    const { x, y } = this.#people.get(name);
    const drawn = this.querySelector(`.tl-person[data-name="${name}"]`);
    drawn?.setAttribute("transform", `translate(${-y} ${-x})`);
  }

  #key(event) {
    const name = event.target.closest(".tl-person")?.dataset.name;
    const step = event.shiftKey ? BIG_NUDGE : NUDGE;
    const way = { ArrowUp: [1, 0], ArrowDown: [-1, 0], ArrowLeft: [0, 1], ArrowRight: [0, -1] }[event.key];
    if (!name || !way || !this.#people.has(name)) return;
    event.preventDefault();
    this.#remember();
    const { x, y } = this.#people.get(name);
    this.#move(name, { x: round(x + way[0] * step), y: round(y + way[1] * step) });
    this.#buttons();
  }

  #undoKey(event) {
    if (!(event.ctrlKey || event.metaKey) || event.key.toLowerCase() !== "z") return;
    if (event.target.closest("input, textarea")) return;
    event.preventDefault();
    this.#step(event.shiftKey ? "redo" : "undo");
  }

  #command(event) {
    const button = event.target.closest("[data-board]");
    if (!button) return;
    const word = button.dataset.board;
    if (word === "undo" || word === "redo") this.#step(word);
    else if (word === "add-attacker" || word === "add-defender") this.#add(word === "add-attacker" ? "F" : "D");
    else if (word === "remove") this.#remove();
    else if (word === "mirror") this.#mirror();
    else if (word === "hand") this.#turnHand();
    else return;
    event.preventDefault();
  }

  #setting(event) {
    const field = event.target.closest("[data-board-setting]");
    if (!field) return;
    this.#remember();
    this.#other = this.#other.filter(([name]) => name !== field.name);
    if (field.value !== "") this.#other.push([field.name, field.value]);
    this.#ask();
    this.#buttons();
  }

  #add(letter) {
    const free = [1, 2, 3, 4, 5].map((n) => letter + n).find((name) => !this.#people.has(name));
    if (!free) return;
    this.#remember();
    const seat = Number(free[1]);
    const spread = seat % 2 ? -1.6 * seat : 1.6 * seat;
    this.#people.set(free, letter === "F" ? { x: 9, y: spread, hand: "left" } : { x: 5, y: spread / 2 });
    this.#ask();
    this.#buttons();
  }

  get #chosen() {
    const focused = document.activeElement?.closest?.(".tl-person")?.dataset.name;
    return focused ?? this.dataset.chosen;
  }

  #remove() {
    const names = [...this.#people.keys()].filter((name) => name !== "F1").sort();
    const name = names.includes(this.#chosen) ? this.#chosen : names.at(-1);
    if (!name) return;
    this.#remember();
    this.#people.delete(name);
    this.#ask();
    this.#buttons();
  }

  #turnHand() {
    const person = this.#people.get(this.#chosen) ?? this.#people.get("F1");
    if (!person?.hand) return;
    this.#remember();
    person.hand = person.hand === "left" ? "right" : "left";
    this.#ask();
  }

  #mirror() {
    this.#remember();
    for (const [name, person] of this.#people) {
      person.y = person.y === 0 ? 0 : -person.y;
      this.#show(name);
    }
    this.#ask();
    this.#buttons();
  }

  #remember() {
    this.#past.push(this.query);
    this.#future = [];
  }

  #step(word) {
    const [from, to] = word === "undo" ? [this.#past, this.#future] : [this.#future, this.#past];
    if (!from.length) return;
    to.push(this.query);
    this.#read(new URLSearchParams(from.pop()));
    for (const name of this.#people.keys()) this.#show(name);
    for (const field of document.querySelectorAll("[data-board-setting]")) {
      const kept = this.#other.find(([name]) => name === field.name);
      field.value = kept ? kept[1] : field.dataset.default ?? "";
    }
    this.#ask();
    this.#buttons();
  }

  #buttons() {
    for (const button of document.querySelectorAll("[data-board]")) {
      if (button.dataset.board === "undo") button.disabled = !this.#past.length;
      if (button.dataset.board === "redo") button.disabled = !this.#future.length;
    }
  }

  // One question at a time; while it is out, only the newest place is kept.
  async #ask() {
    if (this.#waiting) {
      this.#again = true;
      return;
    }
    this.#waiting = true;
    clearTimeout(this.quiet);
    const asked = this.query;
    const headers = { "X-Fragment": this.#dragged ? "dragging" : "at rest", "X-Shown": this.dataset.shown };
    this.#grey(true);
    try {
      const reply = await fetch(`${this.dataset.answer}?${asked}`, { headers });
      const text = await reply.text();
      if (!this.#dragged) this.#carry(asked);
      this.#take(new DOMParser().parseFromString(text, "text/html"), reply.ok);
      this.dispatchEvent(new CustomEvent("board-answered", { bubbles: true, detail: { query: asked } }));
    } catch {
      this.#say("The program does not answer. Start it again; what you drew is in the address bar.");
    } finally {
      this.#waiting = false;
      if (this.#again) {
        this.#again = false;
        this.#ask();
      } else {
        this.#grey(false);
        if (!this.#dragged) this.#rest(asked);
      }
    }
  }

  // At rest: the pictures are fresh; the full answer, with spans and reasons, follows.
  #rest(asked) {
    document.body.classList.remove("moving");
    this.quiet = setTimeout(async () => {
      const reply = await fetch(`${this.dataset.answer}?${asked}`, { headers: { "X-Fragment": "full" } });
      const text = await reply.text();
      if (!reply.ok || this.#waiting || this.#dragged || asked !== this.query) return;
      this.#take(new DOMParser().parseFromString(text, "text/html"), true);
    }, QUIET);
  }

  // The address bar and the links on the page keep what is drawn.
  #carry(query) {
    history.replaceState(null, "", `${location.pathname}?${query}`);
    for (const link of document.querySelectorAll("a[data-with-state]")) {
      link.search = `?${query}`;
    }
    const turned = new URLSearchParams(query);
    turned.set("view", turned.get("view") === "near" ? "zone" : "near");
    for (const link of document.querySelectorAll("a[data-view-link]")) link.search = `?${turned}`;
  }

  #grey(on) {
    clearTimeout(this.timer);
    const set = () => document.body.classList.toggle("asking", on);
    if (on) this.timer = setTimeout(set, 150);
    else set();
  }

  // While somebody is dragged the ice stays under the finger, however long the answer's words are:
  // they take no room back, and the page scrolls by what they need more.
  #steady(change) {
    const line = document.querySelector("[data-part='answer']");
    const top = this.getBoundingClientRect().top;
    if (line) line.style.minHeight = this.#dragged ? `${line.offsetHeight}px` : "";
    change();
    const moved = this.getBoundingClientRect().top - top;
    if (this.#dragged && moved) window.scrollBy({ top: moved, behavior: "instant" });
  }

  #say(text) {
    const line = document.querySelector("[data-part='answer']");
    if (line) line.textContent = text;
  }

  #take(fresh, ok) {
    this.#steady(() => {
      for (const part of fresh.querySelectorAll("[data-part]")) {
        const old = document.querySelector(`[data-part="${part.dataset.part}"]`);
        if (old) old.replaceChildren(...part.childNodes);
      }
    });
    if (!ok) return;
    const board = fresh.querySelector("ice-board");
    const drawn = board?.querySelector("svg");
    const own = this.querySelector("svg");
    if (!drawn || !own) return;
    if (this.#dragged) {
      own.querySelector(".tl-answer")?.replaceWith(drawn.querySelector(".tl-answer"));
      return;
    }
    for (const name of ["shown", "xLow", "xHigh", "yLow", "yHigh"]) this.dataset[name] = board.dataset[name];
    const focused = this.querySelector(".tl-person:focus")?.dataset.name;
    own.replaceWith(drawn);
    for (const name of this.#people.keys()) this.#show(name);
    if (focused) this.querySelector(`.tl-person[data-name="${focused}"]`)?.focus({ preventScroll: true });
  }
}

customElements.define("ice-board", IceBoard);
