// Putting somebody down, and saying what he does: a verb, then where or whom.

const HOMES = {
  F: ["left dot", "right dot", "high slot", "left point", "right point", "low slot", "left corner", "right corner"],
  D: ["(4, 2)", "(4, -2)", "(9, 2)", "(9, -2)"],
  C: ["blue line"],
  H: ["left half wall"],
  G: ["crease top"],
  cone: ["(12, 0)", "(12, 4)", "(12, -4)"],
  pucks: ["left point"],
  net: ["right point"],
  target: ["goal"],
  line: ["centre point"],
};

export class Hand {
  #editor;

  constructor(editor) {
    this.#editor = editor;
    this.adding = "";
    this.aim = null;
    editor.querySelector("[data-aim]").addEventListener("submit", (event) => {
      event.preventDefault();
      const place = editor.querySelector("[data-aim-place]").value.trim();
      const who = this.aim?.who;
      if (!place || !this.aim) return;
      this.aimAt(place);
      editor.ice.focus(who);
    });
    editor.querySelector("[data-tools]").addEventListener("pointerdown", (event) => this.#lift(event));
  }

  // Leaves what was begun; gives back whose turn it was.
  leave() {
    const who = this.aim?.who;
    this.stopAiming();
    if (this.adding) this.arm("");
    return who;
  }

  // Adding --------------------------------------------------------------------------------------

  arm(kind) {
    this.stopAiming();
    this.adding = this.adding === kind ? "" : kind;
    this.#editor.classList.toggle("placing", this.adding !== "");
    for (const one of this.#editor.querySelectorAll("[data-add]")) {
      one.setAttribute("aria-pressed", String(one.dataset.add === this.adding));
    }
    if (this.adding) this.#editor.say("Tap the ice where it starts.");
  }

  putDown(at) {
    const kind = this.adding;
    this.arm("");
    this.#add(kind, at);
  }

  #add(kind, at) {
    if (kind.length === 1) this.#editor.edit({ do: "add person", role: kind, at });
    else this.#editor.edit({ do: "add thing", kind, at });
  }

  // Without a finger: the first usual place where nobody stands yet.
  addSomewhere(kind) {
    const taken = this.#editor.script;
    const home = HOMES[kind].find((one) => !taken.includes(` at ${one}\n`) && !taken.includes(` at ${one},`));
    this.#add(kind, home ?? HOMES[kind][0]);
  }

  // Aiming: a verb was chosen, now where or whom.
  startVerb(button) {
    const who = this.#editor.chosen;
    const { verb, aims } = button.dataset;
    this.stopAiming();
    if (!aims) {
      this.#write({ who, verb });
      return;
    }
    this.aim = { who, verb, aims, path: "path" in button.dataset };
    this.#editor.classList.add("placing", "aiming-now");
    const form = this.#editor.querySelector("[data-aim]");
    form.hidden = false;
    const whom = aims === "person" ? "Tap whom" : aims === "either" ? "Tap whom, or where," : "Tap where";
    const way = this.aim.path ? ", or draw the way" : "";
    form.querySelector("[data-aim-words]").textContent = `${who} ${verb} ... ${whom} on the ice${way}; or write it here.`;
    form.querySelector("[data-aim-skip]").hidden = !("skip" in button.dataset);
    form.querySelector("[data-aim-place]").value = "";
  }

  // The line is complete without a place.
  skip() {
    const { who, verb } = this.aim;
    this.stopAiming();
    this.#write({ who, verb });
  }

  aimAt(to, via = []) {
    const { who, verb } = this.aim;
    this.stopAiming();
    this.#write({ who, verb, to, via });
  }

  #write(line) {
    const select = this.#editor.querySelector("[data-into]");
    const track = select ? Number(select.value) : -1;
    this.#editor.edit({ do: "add line", ...line, track }, { chosen: line.who });
  }

  stopAiming() {
    if (!this.aim) return;
    this.aim = null;
    this.#editor.classList.remove("placing", "aiming-now");
    this.#editor.querySelector("[data-aim]").hidden = true;
  }

  // A sign is dragged from the tools onto the ice.
  #lift(event) {
    const kind = event.target.closest("[data-add]")?.dataset.add;
    if (!kind || this.#editor.previewing) return;
    const stop = new AbortController();
    const { signal } = stop;
    document.addEventListener("pointercancel", () => stop.abort(), { signal });
    document.addEventListener(
      "pointerup",
      (up) => {
        stop.abort();
        this.#dragged(up, kind);
      },
      { signal },
    );
  }

  #dragged(event, kind) {
    const under = document.elementFromPoint(event.clientX, event.clientY);
    if (!under?.closest?.(".desk-ice svg")) return;
    this.arm("");
    this.#add(kind, this.#placeText(this.#editor.ice.placeAt(event)));
  }

  #placeText({ name, x, y }) {
    return name ?? `(${Math.round(x * 10) / 10}, ${Math.round(y * 10) / 10})`;
  }

  choose(who) {
    const select = this.#editor.querySelector("[data-into]");
    this.#editor.edit({ do: "add choice", who, track: select ? Number(select.value) : -1 });
  }
}
