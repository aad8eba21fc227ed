// Writing a drill. The script is the one truth: the ice, the time line and the panels show what the
// program reads in it, and everything that is done to them comes back as a changed script.

import { ask, Newest, Refusal } from "./drill-editor-ask.js";
import { Ice } from "./drill-editor-ice.js";
import { Kept } from "./drill-editor-kept.js";
import { changedLines, ScriptBox } from "./drill-editor-script.js";
import { TimeLine } from "./drill-editor-time.js";

const TYPING = 130;
const ONE_STEP = 1200;
const BEFORE_REPAIRS = 700;
const AGAIN = 1500;
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

class DrillEditor extends HTMLElement {
  #past = [];
  #future = [];
  #merge = { key: "", at: 0 };
  #queue = [];
  #working = false;
  #looks;
  #tries;
  #runs;
  #mends;
  #timers = {};
  #shown = null;
  #script = "";
  #chosen = "";
  #way = "";
  #view = "";
  #into = "";
  #repairs = [];
  #preview = null;
  #quiet = new Set();

  connectedCallback() {
    const start = JSON.parse(this.querySelector("[data-start]").textContent);
    this.places = start.look.places ?? [];
    this.adding = "";
    this.aim = null;
    this.#script = this.querySelector("[data-script]").value;
    this.ice = new Ice(this.#part("ice"), this);
    this.time = new TimeLine(this.#part("time"), this);
    this.box = new ScriptBox(this, {
      typed: (script, now) => this.#typed(script, now),
      step: (word) => this.step(word),
      atLine: (line) => this.#atLine(line),
    });
    this.kept = new Kept({
      draft: this.dataset.draft,
      base: this.dataset.base,
      counter: Number(this.dataset.counter),
      say: (words, kind) => this.#words("[data-kept]", words, kind),
      newer: (draft) => this.#newer(draft),
    });
    this.#looks = new Newest("/editor/look", (answer, values, fault) => this.#looked(answer, values, fault));
    this.#tries = new Newest("/editor/look", (answer) => this.#tried(answer));
    this.#runs = new Newest("/editor/run", (answer, values, fault) => this.#ran(answer, values, fault), (busy) => this.#grey(busy));
    this.#mends = new Newest("/editor/repairs", (answer, values) => this.#mended(answer, values));
    this.#listen();
    this.querySelector("[data-tools]").hidden = false;
    this.#begin(start);
  }

  #part(name) {
    return this.querySelector(`[data-part="${name}"]`);
  }

  get previewing() {
    return this.#preview !== null;
  }

  get #text() {
    return this.#preview?.script ?? this.#script;
  }

  // Opening -----------------------------------------------------------------------------------

  #begin(start) {
    const found = this.kept.recall();
    const history = this.kept.history();
    this.#past = history.past;
    this.#future = history.future;
    let restored = start.restored;
    if (found) {
      restored = true;
      this.#script = found.script;
      this.box.put(found.script);
      this.#queue.push(...(found.pending ?? []).map((edit) => ({ edit })));
      this.kept.change(this.#script, this.#pending(), null);
    }
    if (restored) this.#offerFresh(start.saved);
    if (!this.dataset.draft && !this.dataset.base) this.#offerOthers();
    this.#shown = start.look;
    if (start.look.ok && !found) this.#take(start.look);
    else this.#look();
    this.#run();
    this.#buttons();
    this.#export();
    if (this.#queue.length) this.#work();
  }

  #offer(words, ...links) {
    const line = document.createElement("p");
    line.className = "desk-offer";
    line.append(`${words} `, ...links.flatMap((one) => [one, " "]));
    this.querySelector("[data-offers]").append(line);
    return line;
  }

  #button(words, deed) {
    const button = document.createElement("button");
    button.type = "button";
    button.textContent = words;
    button.addEventListener("click", deed);
    return button;
  }

  #offerFresh(saved) {
    if (!saved) return;
    const words = this.dataset.base ? "What you had not finished is back." : "Your unfinished drill is back.";
    const otherwise = this.dataset.base ? "Start from the saved drill" : "Start with empty ice";
    const line = this.#offer(
      words,
      this.#button("Go on with it", () => line.remove()),
      this.#button(otherwise, () => {
        line.remove();
        this.#commit(saved, otherwise);
        this.#look();
      }),
    );
  }

  #offerOthers() {
    const listed = [...this.querySelectorAll("[data-offers] a")].map((one) => new URL(one.href).searchParams.get("draft"));
    for (const one of this.kept.others().filter((other) => !listed.includes(other.name)).slice(0, 2)) {
      const title = one.script.split("\n", 1)[0].split(":").slice(1).join(":").trim() || "a drill";
      const link = document.createElement("a");
      link.href = `/drills/new?draft=${one.name}`;
      link.textContent = "Go on with it";
      this.#offer(`Not finished, kept on this device: ${title}.`, link);
    }
  }

  #newer(draft) {
    const line = this.#offer(
      "Another window has changed this drill.",
      this.#button("Take what it wrote", () => {
        line.remove();
        this.kept.outrun(draft.counter);
        this.#commit(draft.script, "Taken from the other window");
        this.#look();
      }),
      this.#button("Keep mine", () => {
        line.remove();
        this.kept.outrun(draft.counter);
        this.kept.change(this.#script, this.#pending(), this.#history());
      }),
    );
  }

  // Changing the script -------------------------------------------------------------------------

  #history() {
    return { past: this.#past, future: this.#future };
  }

  #pending() {
    return this.#queue.map((one) => one.edit);
  }

  // Makes a script the drill's script; one step for undo, unless it goes on with the last one.
  #commit(script, said, merge = "") {
    if (script === this.#script) return;
    const now = Date.now();
    const goesOn = merge && this.#merge.key === merge && now - this.#merge.at < ONE_STEP;
    if (!goesOn) this.#past.push({ script: this.#script, said });
    for (const offer of this.querySelectorAll("[data-offers] > p:has(a)")) offer.remove();
    this.#merge = { key: merge, at: now };
    this.#future = [];
    this.#script = script;
    this.kept.change(script, this.#pending(), this.#history());
    this.box.put(script);
    this.#export();
    this.#buttons();
  }

  #typed(script, now = false) {
    if (this.#preview) return;
    this.#commit(script, "typed", now ? "" : "typing");
    clearTimeout(this.#timers.typing);
    this.#timers.typing = setTimeout(() => this.#look(), now ? 0 : TYPING);
  }

  // Asks the program for an edit of the script; edits are worked in one after the other.
  edit(edit, { chosen, merge = "" } = {}) {
    if (this.#preview) return;
    this.#tries.forget();
    this.#queue.push({ edit, chosen, merge });
    this.kept.hold(this.#script, this.#pending());
    this.#work();
  }

  async #work() {
    if (this.#working) return;
    this.#working = true;
    while (this.#queue.length) {
      const one = this.#queue[0];
      const script = this.#script;
      let answer;
      try {
        answer = await ask("/editor/look", { ...this.#frame(), script, edit: one.edit, chosen: one.chosen ?? this.#chosen });
      } catch (fault) {
        if (fault instanceof Refusal) {
          this.#queue.shift();
          this.kept.hold(this.#script, this.#pending());
          this.say(fault.message, "risk");
          continue;
        }
        this.say("The program does not answer. What you did is kept, and worked in as soon as it is back.", "risk");
        await new Promise((done) => setTimeout(done, AGAIN));
        continue;
      }
      if (script !== this.#script) continue;
      this.#queue.shift();
      if (answer.refused) {
        this.kept.hold(this.#script, this.#pending());
        this.say(answer.refused, "risk");
      } else {
        this.#commit(answer.script, answer.said, one.merge);
        this.#chosen = answer.chosen;
        this.say(answer.said);
      }
      this.#take(answer);
      this.#run();
    }
    this.#working = false;
  }

  step(word) {
    if (this.#preview) return;
    const [from, to] = word === "undo" ? [this.#past, this.#future] : [this.#future, this.#past];
    if (!from.length) return;
    const { script, said } = from.pop();
    to.push({ script: this.#script, said });
    this.#script = script;
    this.#merge = { key: "", at: 0 };
    this.kept.change(script, this.#pending(), this.#history());
    this.box.put(script);
    this.say(`${word === "undo" ? "Taken back" : "Done again"}: ${said}`);
    this.#export();
    this.#buttons();
    this.#look();
  }

  // Looking -------------------------------------------------------------------------------------

  #frame() {
    const width = this.#iceWidth();
    const time = this.#part("time").clientWidth || 900;
    return { script: this.#text, chosen: this.#chosen, view: this.#view, way: this.#way, width, time_width: time };
  }

  // How wide the ice really is: the picture may be bounded by the height of the window.
  #iceWidth() {
    const part = this.#part("ice");
    const svg = part.querySelector("svg");
    if (!svg) return part.clientWidth || 620;
    const { width, height } = svg.viewBox.baseVal;
    const most = parseFloat(getComputedStyle(svg).maxHeight) || Infinity;
    return Math.min(part.clientWidth, (most * width) / height) || 620;
  }

  #look() {
    this.#looks.ask(this.#frame());
  }

  refresh() {
    this.#look();
    this.#run();
  }

  #looked(answer, values, fault) {
    if (!answer) {
      if (fault instanceof Refusal) this.say(fault.message, "risk");
      else this.#silent(() => this.#look());
      return;
    }
    if (values.script !== this.#text) return;
    this.#take(answer);
    if (answer.ok) this.#run();
  }

  #silent(again) {
    this.say("The program does not answer. Everything is kept on this device.", "risk");
    clearTimeout(this.#timers.again);
    this.#timers.again = setTimeout(again, AGAIN);
  }

  #take(answer) {
    this.box.showFaults(answer.faults);
    for (const name of ["ice", "time"]) this.#part(name).classList.toggle("stale", !answer.ok);
    if (!answer.ok) {
      this.#part("answer").textContent = "The script has a fault: it stands at its line. The pictures show how it was before.";
      return;
    }
    this.#shown = answer;
    this.places = answer.places;
    if (answer.parts) this.#parts(answer.parts);
    this.querySelector("[data-title]").textContent = answer.title;
    document.title = `${answer.title} · tendline`;
    this.#lists();
    this.#chosenShown();
  }

  #parts(parts) {
    for (const [name, html] of Object.entries(parts)) {
      if (name === "ice") this.ice.show(html);
      else this.#put(name, html);
    }
    const into = this.querySelector("[data-into]");
    const same = into && [...into.options].find((one) => one.text === this.#into);
    if (same) into.value = same.value;
  }

  // Exchanges a part; a field that is being filled in is left alone, and the focus stays where it was.
  #put(name, html) {
    const part = this.#part(name);
    const active = part.contains(document.activeElement) ? document.activeElement : null;
    const typing = active?.matches("input:not([type=checkbox]), textarea") && active.value !== active.defaultValue;
    if (typing) return;
    const key = active?.dataset.edit ?? active?.dataset.verb ?? active?.dataset.do ?? active?.dataset.way;
    part.innerHTML = html;
    if (!key) return;
    for (const one of part.querySelectorAll("[data-edit], [data-verb], [data-do], [data-way]")) {
      const { edit, verb, do: deed, way } = one.dataset;
      if ([edit, verb, deed, way].includes(key)) {
        one.focus({ preventScroll: true });
        break;
      }
    }
  }

  #lists() {
    const options = (names) =>
      names.map((name) => {
        const option = document.createElement("option");
        option.value = name;
        return option;
      });
    const people = Object.keys(this.#shown.marks).filter((name) => /^[FDCHG]\d*$/.test(name));
    const places = this.places.map(([name]) => name);
    this.querySelector("[data-places]").replaceChildren(...options(places));
    this.querySelector("[data-aims-list]").replaceChildren(...options([...people, ...places]));
  }

  // Trying out: while something is dragged the answer follows, and nothing is written.
  tryOut(edit) {
    this.#hold();
    this.#tries.ask({ ...this.#frame(), script: this.#script, edit });
  }

  // While something is dragged the ice must not move: the answer above it keeps its height.
  #hold() {
    const line = this.#part("answer");
    if (!line.style.height) line.style.height = `${line.offsetHeight}px`;
    clearTimeout(this.#timers.hold);
    this.#timers.hold = setTimeout(() => {
      line.style.height = "";
    }, 1500);
  }

  #tried(answer) {
    if (!answer?.ok || answer.refused || !(this.ice.busy || this.time.busy)) return;
    if (this.ice.busy) this.ice.show(answer.parts.ice);
    else this.say(answer.said);
    this.#runs.ask({ ...this.#frame(), script: answer.script, trial: true });
  }

  // Running -------------------------------------------------------------------------------------

  #run() {
    this.#runs.ask(this.#frame());
  }

  #grey(busy) {
    clearTimeout(this.#timers.grey);
    const set = () => {
      for (const name of ["answer", "time", "findings"]) this.#part(name).classList.toggle("waiting", busy);
    };
    if (busy) this.#timers.grey = setTimeout(set, 150);
    else set();
  }

  #ran(answer, values, fault) {
    if (!answer) {
      if (!(fault instanceof Refusal)) this.#silent(() => this.refresh());
      return;
    }
    if (!values.trial && values.script !== this.#text) return;
    if (!answer.ok) {
      if (answer.fault) this.#pinned(answer.fault);
      return;
    }
    if (this.#shown?.ok) this.box.showFaults([]);
    for (const [name, html] of Object.entries(answer.parts)) {
      if (name === "time" && this.time.busy) continue;
      this.#put(name, html);
    }
    this.time.choose(this.#chosen);
    if (values.trial) return;
    this.#way = answer.way;
    this.#repair(answer.stands, values);
  }

  #pinned(fault) {
    this.#part("answer").textContent = `Line ${fault.line} cannot happen: ${fault.asked}. ${fault.hint}`;
    this.box.showFaults([fault]);
    this.#part("time").classList.add("stale");
  }

  #repair(stands, values) {
    clearTimeout(this.#timers.mends);
    if (this.#preview) return;
    if (!stands) {
      this.#part("repairs").replaceChildren();
      return;
    }
    this.#part("repairs").classList.add("waiting");
    this.#timers.mends = setTimeout(() => this.#mends.ask(values), BEFORE_REPAIRS);
  }

  #mended(answer, values) {
    if (!answer || values.script !== this.#script || this.#preview) return;
    this.#repairs = answer.scripts;
    this.#part("repairs").classList.remove("waiting");
    this.#part("repairs").innerHTML = answer.parts.repairs;
  }

  #previewOf(index) {
    const words = this.querySelector(`[data-preview="${index}"]`).closest("li").querySelector("strong").textContent;
    this.#show({ script: this.#repairs[index], words });
  }

  #show(preview) {
    this.#preview = preview;
    const on = preview !== null;
    this.classList.toggle("previewing", on);
    this.querySelector("[data-preview-bar]").hidden = !on;
    this.box.readOnly = on;
    this.box.put(this.#text);
    this.box.mark("changed", on ? changedLines(this.#script, preview.script) : []);
    if (on) {
      const words = `Only looked at: ${preview.words}. Changed lines are marked in the margin.`;
      this.querySelector("[data-preview-words]").textContent = words;
      this.querySelector("[data-preview-bar]").scrollIntoView({ block: "nearest" });
    }
    this.#looks.ask(this.#frame());
  }

  #apply(script, words) {
    this.#show(null);
    this.#commit(script, words);
    this.say(`${words}. Undo takes it back.`);
    this.#look();
  }

  // Choosing ------------------------------------------------------------------------------------

  choose(chosen) {
    if (chosen === this.#chosen) return;
    this.#chosen = chosen;
    this.#chosenShown();
    this.#look();
  }

  #chosenShown() {
    const { rows = [], marks = {} } = this.#shown ?? {};
    const chosen = this.#chosen;
    const line = chosen.startsWith("row ") ? rows[Number(chosen.slice(4))] : marks[chosen];
    this.box.choose(line ?? 0);
    this.ice.choose(chosen);
    this.time.choose(chosen);
  }

  #atLine(line) {
    const { rows = [], marks = {}, script } = this.#shown ?? {};
    if (script !== this.#script || this.#preview) return;
    const row = rows.indexOf(line);
    const name = Object.keys(marks).find((one) => marks[one] === line);
    const chosen = row >= 0 ? `row ${row}` : name;
    if (chosen) this.choose(chosen);
  }

  setWay(way) {
    this.#way = way;
    this.#run();
  }

  // Adding --------------------------------------------------------------------------------------

  #arm(kind) {
    this.#stopAiming();
    this.adding = this.adding === kind ? "" : kind;
    this.classList.toggle("placing", this.adding !== "");
    for (const one of this.querySelectorAll("[data-add]")) {
      one.setAttribute("aria-pressed", String(one.dataset.add === this.adding));
    }
    if (this.adding) this.say("Tap the ice where it starts.");
  }

  putDown(at) {
    const kind = this.adding;
    this.#arm("");
    this.#add(kind, at);
  }

  #add(kind, at) {
    if (kind.length === 1) this.edit({ do: "add person", role: kind, at });
    else this.edit({ do: "add thing", kind, at });
  }

  // Without a finger: the first usual place where nobody stands yet.
  #addSomewhere(kind) {
    const taken = this.#script;
    const home = HOMES[kind].find((one) => !taken.includes(` at ${one}\n`) && !taken.includes(` at ${one},`));
    this.#add(kind, home ?? HOMES[kind][0]);
  }

  // Aiming: a verb was chosen, now where or whom.
  startVerb(button) {
    const who = this.#chosen;
    const { verb, aims } = button.dataset;
    this.#stopAiming();
    if (!aims) {
      this.#write({ who, verb });
      return;
    }
    this.aim = { who, verb, aims, path: "path" in button.dataset };
    this.classList.add("placing", "aiming-now");
    const form = this.querySelector("[data-aim]");
    form.hidden = false;
    const whom = aims === "person" ? "Tap whom" : aims === "either" ? "Tap whom, or where," : "Tap where";
    const way = this.aim.path ? ", or draw the way" : "";
    form.querySelector("[data-aim-words]").textContent = `${who} ${verb} ... ${whom} on the ice${way}; or write it here.`;
    form.querySelector("[data-aim-skip]").hidden = !("skip" in button.dataset);
    form.querySelector("[data-aim-place]").value = "";
  }

  aimAt(to, via = []) {
    const { who, verb } = this.aim;
    this.#stopAiming();
    this.#write({ who, verb, to, via });
  }

  #write(line) {
    const select = this.querySelector("[data-into]");
    const track = select ? Number(select.value) : -1;
    this.edit({ do: "add line", ...line, track }, { chosen: line.who });
  }

  #stopAiming() {
    if (!this.aim) return;
    this.aim = null;
    this.classList.remove("placing", "aiming-now");
    this.querySelector("[data-aim]").hidden = true;
  }

  // Hearing -------------------------------------------------------------------------------------

  #listen() {
    this.addEventListener("click", (event) => this.#click(event));
    this.addEventListener("change", (event) => this.#change(event));
    document.addEventListener("keydown", (event) => {
      if (this.contains(event.target) || event.target === document.body) this.#key(event);
    });
    this.querySelector("[data-aim]").addEventListener("submit", (event) => {
      event.preventDefault();
      const place = this.querySelector("[data-aim-place]").value.trim();
      const who = this.aim?.who;
      if (!place || !this.aim) return;
      this.aimAt(place);
      this.ice.focus(who);
    });
    this.querySelector("[data-keep-form]").addEventListener("submit", (event) => this.#keep(event));
    this.querySelector("[data-tools]").addEventListener("pointerdown", (event) => this.#lift(event));
    let width = this.clientWidth;
    new ResizeObserver(() => {
      if (Math.abs(this.clientWidth - width) < 24) return;
      width = this.clientWidth;
      this.refresh();
    }).observe(this);
  }

  // A sign is dragged from the tools onto the ice.
  #lift(event) {
    const kind = event.target.closest("[data-add]")?.dataset.add;
    if (!kind || this.#preview) return;
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
    this.#arm("");
    this.#add(kind, this.#placeText(this.ice.placeAt(event)));
  }

  #placeText({ name, x, y }) {
    return name ?? `(${Math.round(x * 10) / 10}, ${Math.round(y * 10) / 10})`;
  }

  #click(event) {
    const button = event.target.closest("button");
    if (!button) return;
    const { step, add, verb, choose, chooseRow, do: deed, preview, apply } = button.dataset;
    if (step) this.step(step);
    else if (add) event.detail === 0 ? this.#addSomewhere(add) : this.#arm(add);
    else if (verb) {
      this.startVerb(button);
      if (event.detail === 0) this.querySelector("[data-aim-place]").focus();
    } else if (choose) this.#choose(choose);
    else if (chooseRow) this.choose(chooseRow);
    else if (deed) this.edit(JSON.parse(deed));
    else if (preview !== undefined) this.#previewOf(Number(preview));
    else if (apply !== undefined) {
      const words = button.closest("li").querySelector("strong").textContent;
      this.#apply(this.#repairs[Number(apply)], `Applied: ${words}`);
    } else if ("previewApply" in button.dataset) this.#apply(this.#preview.script, `Applied: ${this.#preview.words}`);
    else if ("previewBack" in button.dataset) this.#show(null);
    else if ("aimStop" in button.dataset) this.#stopAiming();
    else if ("aimSkip" in button.dataset) {
      const { who, verb: chosen } = this.aim;
      this.#stopAiming();
      this.#write({ who, verb: chosen });
    } else if ("more" in button.dataset) {
      for (const one of this.querySelectorAll("[data-verb][hidden]")) one.hidden = false;
      button.remove();
    }
  }

  #choose(who) {
    const select = this.querySelector("[data-into]");
    this.edit({ do: "add choice", who, track: select ? Number(select.value) : -1 });
  }

  #change(event) {
    const field = event.target;
    if (field.matches("[data-view]")) {
      this.#view = field.value;
      this.#look();
    } else if (field.matches("[data-into]")) {
      this.#into = field.selectedOptions[0].text;
    } else if (field.matches("[data-edit]")) {
      const edit = JSON.parse(field.dataset.edit);
      const as = field.dataset.as ?? "value";
      if (as === "lines") edit.lines = field.value.split("\n");
      else edit[as] = field.type === "checkbox" ? (field.checked ? "yes" : "") : field.value;
      if (field.matches("input, textarea")) field.defaultValue = field.value;
      this.edit(edit);
    }
  }

  #key(event) {
    const field = event.target.matches("input, textarea, select");
    if ((event.ctrlKey || event.metaKey) && !event.target.matches("[data-script]")) {
      const key = event.key.toLowerCase();
      if (key !== "z" && key !== "y") return;
      if (field && event.target.value !== event.target.defaultValue) return;
      event.preventDefault();
      this.step(key === "y" || event.shiftKey ? "redo" : "undo");
      return;
    }
    if (event.key === "Escape") {
      const who = this.aim?.who;
      this.#stopAiming();
      if (this.adding) this.#arm("");
      if (this.#preview) this.#show(null);
      this.ice.leave();
      if (who) this.ice.focus(who);
      return;
    }
    if (field || event.altKey || event.ctrlKey || event.metaKey || event.key.length !== 1) return;
    if (event.shiftKey && /^[FDCHG]$/.test(event.key)) {
      event.preventDefault();
      this.#addSomewhere(event.key);
    } else if (!event.shiftKey) this.#verbKey(event);
  }

  #verbKey(event) {
    if (event.key === "m" && this.querySelector("[data-choose]")) {
      event.preventDefault();
      this.#choose(this.querySelector("[data-choose]").dataset.choose);
      return;
    }
    const button = this.querySelector(`[data-verb][data-key="${CSS.escape(event.key)}"]`);
    if (!button) return;
    event.preventDefault();
    this.startVerb(button);
    if (this.aim) this.querySelector("[data-aim-place]").focus();
  }

  // Keeping -------------------------------------------------------------------------------------

  async #keep(event) {
    event.preventDefault();
    const form = new URLSearchParams({ script: this.#script, base: this.dataset.base, draft: this.kept.draft });
    try {
      const reply = await fetch("/drills/keep", { method: "POST", headers: { Accept: "application/json" }, body: form });
      const body = await reply.json();
      if (!reply.ok) {
        const { asked, came, allowed, hint } = body.error;
        this.say([asked, came && `got ${came}`, allowed && `allowed: ${allowed}`, hint].filter(Boolean).join("; "), "risk");
        return;
      }
      this.kept.forget();
      location.assign(body.address);
    } catch {
      this.say("The program does not answer. Everything is kept on this device; try again.", "risk");
    }
  }

  #export() {
    const link = this.querySelector("[data-export]");
    if (link.href.startsWith("blob:")) URL.revokeObjectURL(link.href);
    link.href = URL.createObjectURL(new Blob([this.#script], { type: "text/plain" }));
    const number = /^drill (\S+):/.exec(this.#script)?.[1] ?? "drill";
    link.download = `${number.replace(/[^A-Za-z0-9-]/g, "")}.drill`;
    link.hidden = false;
  }

  // Saying --------------------------------------------------------------------------------------

  say(words, kind = "") {
    this.#words("[data-said]", words, kind);
  }

  #words(where, words, kind) {
    const line = this.querySelector(where);
    line.textContent = words;
    line.className = `${line.className.replace(/\b(risk|advice)\b/g, "").trim()} ${kind ?? ""}`.trim();
  }

  #buttons() {
    for (const button of this.querySelectorAll("[data-step]")) {
      button.disabled = button.dataset.step === "undo" ? !this.#past.length : !this.#future.length;
    }
  }
}

customElements.define("drill-editor", DrillEditor);
