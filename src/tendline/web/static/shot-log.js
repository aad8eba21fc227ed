// Three large taps log a shot: where, how it came, what became of it.
// Every tap is kept on this device at once; "saved" is said only when the server has it on disk.

const RETRY_AFTER = 3000;

const newId = () => {
  const bytes = crypto.getRandomValues(new Uint8Array(12));
  return `s-${[...bytes].map((byte) => byte.toString(16).padStart(2, "0")).join("")}`;
};

class ShotLog extends HTMLElement {
  #draft = {};
  #queue = [];
  #sending = false;

  connectedCallback() {
    this.#draft = this.#recall("draft", {});
    this.#queue = this.#recall("queue", []);
    this.addEventListener("click", (event) => this.#tap(event));
    this.#show();
    this.#send();
  }

  #key(name) {
    return `tendline-${name}-${this.dataset.game}`;
  }

  #recall(name, otherwise) {
    try {
      return JSON.parse(localStorage.getItem(this.#key(name))) ?? otherwise;
    } catch {
      return otherwise;
    }
  }

  #keep() {
    try {
      localStorage.setItem(this.#key("draft"), JSON.stringify(this.#draft));
      localStorage.setItem(this.#key("queue"), JSON.stringify(this.#queue));
    } catch {
      this.#say("This device refuses to remember taps: send each shot before leaving the page.", "risk");
    }
  }

  #tap(event) {
    const button = event.target.closest("button[data-field]");
    if (event.target.closest("[data-undo]")) this.#undo();
    else if (button) this.#choose(button.dataset.field, button.value);
    else if (event.target.closest("[data-ice]")) this.#place(event);
    else return;
    event.preventDefault();
  }

  #place(event) {
    const svg = this.querySelector("[data-ice] svg");
    const point = new DOMPoint(event.clientX, event.clientY);
    const inside = point.matrixTransform(svg.getScreenCTM().inverse());
    const round = (metres) => Math.round(metres * 100) / 100;
    this.#draft = { x: round(-inside.y), y: round(-inside.x) };
    this.#keep();
    this.#show();
  }

  #choose(field, value) {
    if (this.#draft.x === undefined) return;
    this.#draft[field] = value;
    if (field === "result") this.#finish();
    this.#keep();
    this.#show();
  }

  #finish() {
    const { x, y, situation, result } = this.#draft;
    const event = { kind: "shot", id: newId(), made_at: new Date().toISOString(), frame: "net", x, y, result };
    if (situation) event.situation = situation;
    if (this.dataset.period) event.period = Number(this.dataset.period);
    this.#draft = {};
    this.#add(event);
  }

  #undo() {
    if (this.#draft.situation !== undefined) delete this.#draft.situation;
    else if (this.#draft.x !== undefined) this.#draft = {};
    else if (this.#queue.length && !this.#sending) this.#queue.pop();
    else if (this.dataset.undoable) {
      const undoes = this.dataset.undoable;
      this.dataset.undoable = "";
      this.#add({ kind: "undo", id: newId(), made_at: new Date().toISOString(), undoes });
    }
    this.#keep();
    this.#show();
  }

  #add(event) {
    this.#queue.push(event);
    this.#keep();
    this.#send();
  }

  get #step() {
    if (this.#draft.x === undefined) return "place";
    return this.#draft.situation === undefined ? "situation" : "result";
  }

  #show() {
    const step = this.#step;
    for (const part of this.querySelectorAll("[data-step]")) part.hidden = part.dataset.step !== step;
    const undo = this.querySelector("[data-undo]");
    if (undo) undo.disabled = step === "place" && !this.#queue.length && !this.dataset.undoable;
  }

  async #send() {
    if (this.#sending || !this.#queue.length) return;
    this.#sending = true;
    const batch = [this.#queue[0]];
    this.#say("Sending ...");
    try {
      const reply = await fetch(this.dataset.post, {
        method: "POST",
        headers: { "Content-Type": "application/json", Accept: "text/html", "X-Fragment": "1" },
        body: JSON.stringify({ events: batch }),
      });
      const text = await reply.text();
      if (!reply.ok && reply.status < 500) this.#refused(batch, text);
      else if (!reply.ok) throw new Error(text);
      else this.#saved(batch, text);
    } catch {
      this.#say(`Not saved yet: ${this.#queue.length} kept on this device, tried again by itself.`, "risk");
      setTimeout(() => this.#send(), RETRY_AFTER);
      this.#sending = false;
      return;
    }
    this.#sending = false;
    this.#show();
    this.#send();
  }

  #drop(batch) {
    const sent = new Set(batch.map((event) => event.id));
    this.#queue = this.#queue.filter((event) => !sent.has(event.id));
    this.#keep();
  }

  #saved(batch, text) {
    this.#drop(batch);
    const fresh = new DOMParser().parseFromString(text, "text/html");
    for (const part of fresh.querySelectorAll("[data-part]")) {
      document.querySelector(`[data-part="${part.dataset.part}"]`)?.replaceChildren(...part.childNodes);
    }
    const state = fresh.querySelector("[data-state]");
    this.dataset.undoable = state?.dataset.undoable ?? "";
    this.#say(state?.dataset.last ?? "Saved.", "advice");
  }

  #refused(batch, text) {
    this.#drop(batch);
    this.#setAside(batch);
    const lead = new DOMParser().parseFromString(text, "text/html").querySelector(".lead");
    this.#say(lead?.textContent ?? "That entry was refused.", "risk");
  }

  // A refused entry is not thrown away: it stays on this device for whoever can mend it.
  #setAside(batch) {
    try {
      const kept = this.#recall("refused", []);
      localStorage.setItem(this.#key("refused"), JSON.stringify([...kept, ...batch]));
    } catch {
      // Nothing to keep it in: the message on the page is all there is.
    }
  }

  #say(text, kind = "") {
    const line = this.querySelector("[data-said]");
    line.textContent = text;
    line.className = kind;
  }
}

customElements.define("shot-log", ShotLog);
