// What keeps a drill from being lost: every change on this device at once, and on disk by the program.
// "Saved" is said only when the program has answered that it is on disk.

import { ask, Refusal } from "./drill-editor-ask.js";

const AGAIN = 2000;
const MOST_HISTORY = 250_000;
const PREFIX = "tendline-drill-";

const read = (key) => {
  try {
    return JSON.parse(localStorage.getItem(key));
  } catch {
    return null;
  }
};

const newName = () => {
  const bytes = crypto.getRandomValues(new Uint8Array(8));
  return `new-${[...bytes].map((byte) => byte.toString(16).padStart(2, "0")).join("")}`;
};

export class Kept {
  #say;
  #newer;
  #sending = false;
  #timer = 0;
  #waiting = false;

  constructor({ draft, base, counter, say, newer }) {
    this.draft = draft;
    this.base = base;
    this.counter = counter;
    this.script = "";
    this.pending = [];
    this.#say = say;
    this.#newer = newer;
  }

  // What this device kept of this drill and the program has not: a script, gestures not yet worked in.
  recall() {
    if (!this.draft) return null;
    const found = read(PREFIX + this.draft);
    if (!found || typeof found.script !== "string") return null;
    const ahead = found.counter > this.counter || (found.pending ?? []).length > 0;
    if (!ahead) return null;
    this.counter = Math.max(this.counter, found.counter);
    return found;
  }

  history() {
    const found = this.draft ? read(`${PREFIX}${this.draft}-history`) : null;
    return Array.isArray(found?.past) && Array.isArray(found?.future) ? found : { past: [], future: [] };
  }

  // Other new drills that only this device knows of.
  others() {
    const found = [];
    for (let k = 0; k < localStorage.length; k += 1) {
      const key = localStorage.key(k);
      if (!key?.startsWith(`${PREFIX}new-`) || key.endsWith("-history")) continue;
      const name = key.slice(PREFIX.length);
      const entry = read(key);
      if (name !== this.draft && entry?.script) found.push({ name, script: entry.script, at: entry.at });
    }
    return found.sort((a, b) => (b.at ?? 0) - (a.at ?? 0));
  }

  change(script, pending, history) {
    this.#name();
    this.counter += 1;
    this.#write(script, pending, history);
    this.#soon(script);
  }

  // A gesture that the program has not worked in yet: kept here, so that it cannot get lost.
  hold(script, pending) {
    this.#name();
    this.#write(script, pending, null);
  }

  #name() {
    if (this.draft) return;
    this.draft = newName();
    history.replaceState(null, "", `/drills/new?draft=${this.draft}`);
  }

  #write(script, pending, past) {
    this.script = script;
    this.pending = pending;
    try {
      const entry = { script, pending, counter: this.counter, base: this.base, at: Date.now() };
      localStorage.setItem(PREFIX + this.draft, JSON.stringify(entry));
      if (past) this.#writeHistory(past);
    } catch {
      this.#say("This device refuses to remember changes: stay on the page until it says saved.", "risk");
    }
  }

  #writeHistory({ past, future }) {
    let size = 0;
    const newest = [];
    for (const one of [...past].reverse()) {
      size += one.script.length;
      if (size > MOST_HISTORY) break;
      newest.unshift(one);
    }
    localStorage.setItem(`${PREFIX}${this.draft}-history`, JSON.stringify({ past: newest, future: future.slice(-20) }));
  }

  #soon(script) {
    this.script = script;
    this.#waiting = true;
    this.#say("Saving ...");
    clearTimeout(this.#timer);
    this.#timer = setTimeout(() => this.#send(), 250);
  }

  async #send() {
    if (this.#sending) return;
    this.#sending = true;
    while (this.#waiting) {
      this.#waiting = false;
      const { script, counter } = this;
      try {
        const answer = await ask(`/editor/drafts/${this.draft}`, { script, counter, base: this.base }, "PUT");
        if (answer.newer) {
          this.#say("Another window has changed this drill too.", "risk");
          this.#newer(answer.newer);
          break;
        }
        if (!this.#waiting) this.#saved(counter);
      } catch (fault) {
        if (fault instanceof Refusal) {
          this.#say(`Not saved: ${fault.message}`, "risk");
        } else {
          this.#say("The program does not answer. Everything is kept on this device, and saved as soon as it is back.", "risk");
          setTimeout(() => {
            this.#waiting = true;
            this.#send();
          }, AGAIN);
        }
        break;
      }
    }
    this.#sending = false;
  }

  #saved(counter) {
    if (counter !== this.counter) return;
    const now = new Date().toLocaleTimeString([], { hour: "2-digit", minute: "2-digit" });
    this.#say(`Saved ${now}, not among your drills yet.`, "advice");
  }

  // Take the other window's version as the one to go on from, or write over it.
  outrun(counter) {
    this.counter = Math.max(this.counter, counter) + 1;
  }

  forget() {
    clearTimeout(this.#timer);
    this.#waiting = false;
    if (!this.draft) return;
    localStorage.removeItem(PREFIX + this.draft);
    localStorage.removeItem(`${PREFIX}${this.draft}-history`);
  }
}
