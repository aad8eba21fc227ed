// Writing a drill. The script is the one truth: the ice, the time line and the panels show what the
// program reads in it, and everything that is done to them comes back as a changed script.
import { ask, Newest, Refusal } from "./drill-editor-ask.js";
import { Hand } from "./drill-editor-hand.js";
import { Ice } from "./drill-editor-ice.js";
import { Kept } from "./drill-editor-kept.js";
import { Offers } from "./drill-editor-offers.js";
import { exchange, fillLists, holdHeight } from "./drill-editor-parts.js";
import { Play } from "./drill-editor-play.js";
import { Repairs } from "./drill-editor-repairs.js";
import { ScriptBox } from "./drill-editor-script.js";
import { keepDrill, offerFile } from "./drill-editor-take.js";
import { TimeLine } from "./drill-editor-time.js";

const [TYPING, ONE_STEP, AGAIN] = [130, 1200, 1500]; // ms
class DrillEditor extends HTMLElement {
  #past = [];
  #future = [];
  #merge = { key: "", at: 0 };
  #queue = [];
  #working = false;
  #looks;
  #tries;
  #runs;
  #timers = {};
  #shown = null;
  #script = "";
  #chosen = "";
  #way = "";
  #view = "";
  #into = "";

  connectedCallback() {
    const start = JSON.parse(this.querySelector("[data-start]").textContent);
    this.places = start.look.places ?? [];
    this.#script = this.querySelector("[data-script]").value;
    this.offers = new Offers(this);
    this.hand = new Hand(this);
    this.repairs = new Repairs(this, this.#part("repairs"));
    this.ice = new Ice(this.#part("ice"), this);
    this.time = new TimeLine(this.#part("time"), this);
    this.play = new Play(this);
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
      newer: (draft) => this.offers.newer(draft),
    });
    this.#looks = new Newest("/editor/look", (answer, values, fault) => this.#looked(answer, values, fault));
    this.#tries = new Newest("/editor/look", (answer) => this.#tried(answer));
    this.#runs = new Newest("/editor/run", (answer, values, fault) => this.#ran(answer, values, fault), (busy) => this.#grey(busy));
    this.#listen();
    this.querySelector("[data-tools]").hidden = false;
    this.#begin(start);
  }

  #part(name) {
    return this.querySelector(`[data-part="${name}"]`);
  }

  get previewing() {
    return this.repairs.preview !== null;
  }
  get adding() {
    return this.hand.adding;
  }
  get aim() {
    return this.hand.aim;
  }
  get script() {
    return this.#script;
  }
  get chosen() {
    return this.#chosen;
  }

  // What is shown: the script, or the repair that is only looked at.
  get text() {
    return this.repairs.preview?.script ?? this.#script;
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
    if (restored) this.offers.fresh(start.saved);
    if (!this.dataset.draft && !this.dataset.base) this.offers.others();
    this.#shown = start.look;
    if (start.look.ok && !found) this.#take(start.look);
    else this.look();
    this.#run();
    this.#buttons();
    offerFile(this.querySelector("[data-export]"), this.#script);
    if (this.#queue.length) this.#work();
  }

  // Changing the script -------------------------------------------------------------------------

  #history() {
    return { past: this.#past, future: this.#future };
  }

  #pending() {
    return this.#queue.map((one) => one.edit);
  }

  // Makes a script the drill's script; one step for undo, unless it goes on with the last one.
  commit(script, said, merge = "") {
    if (script === this.#script) return;
    const now = Date.now();
    const goesOn = merge && this.#merge.key === merge && now - this.#merge.at < ONE_STEP;
    if (!goesOn) this.#past.push({ script: this.#script, said });
    this.offers.drop();
    this.#merge = { key: merge, at: now };
    this.#future = [];
    this.#script = script;
    this.kept.change(script, this.#pending(), this.#history());
    this.box.put(script);
    offerFile(this.querySelector("[data-export]"), this.#script);
    this.#buttons();
  }

  // Writes what is there once more, on the device and on disk.
  keep() {
    this.kept.change(this.#script, this.#pending(), this.#history());
  }

  #typed(script, now = false) {
    if (this.previewing) return;
    this.commit(script, "typed", now ? "" : "typing");
    clearTimeout(this.#timers.typing);
    this.#timers.typing = setTimeout(() => this.look(), now ? 0 : TYPING);
  }

  // Asks the program for an edit of the script; edits are worked in one after the other.
  edit(edit, { chosen, merge = "" } = {}) {
    if (this.previewing) return;
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
        this.commit(answer.script, answer.said, one.merge);
        this.#chosen = answer.chosen;
        this.say(answer.said);
      }
      this.#take(answer);
      this.#run();
    }
    this.#working = false;
  }

  step(word) {
    if (this.previewing) return;
    const [from, to] = word === "undo" ? [this.#past, this.#future] : [this.#future, this.#past];
    if (!from.length) return;
    const { script, said } = from.pop();
    to.push({ script: this.#script, said });
    this.#script = script;
    this.#merge = { key: "", at: 0 };
    this.kept.change(script, this.#pending(), this.#history());
    this.box.put(script);
    this.say(`${word === "undo" ? "Taken back" : "Done again"}: ${said}`);
    offerFile(this.querySelector("[data-export]"), this.#script);
    this.#buttons();
    this.look();
  }

  // Looking -------------------------------------------------------------------------------------

  #frame() {
    const width = this.#iceWidth();
    const time = this.#part("time").clientWidth || 900;
    return { script: this.text, chosen: this.#chosen, view: this.#view, way: this.#way, width, time_width: time };
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

  look() {
    this.#looks.ask(this.#frame());
  }

  refresh() {
    this.look();
    this.#run();
  }

  #looked(answer, values, fault) {
    if (!answer) {
      if (fault instanceof Refusal) this.say(fault.message, "risk");
      else this.#silent(() => this.look());
      return;
    }
    if (values.script !== this.text) return;
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
      this.play.old(true);
      this.#part("answer").textContent = "The script has a fault: it stands at its line. The pictures show how it was before.";
      return;
    }
    this.#shown = answer;
    this.places = answer.places;
    if (answer.parts) this.#parts(answer.parts);
    this.querySelector("[data-title]").textContent = answer.title;
    document.title = `${answer.title} · tendline`;
    fillLists(this, this.places, answer.marks);
    this.#chosenShown();
  }

  #parts(parts) {
    for (const [name, html] of Object.entries(parts)) {
      if (name === "ice") this.ice.show(html);
      else exchange(this.#part(name), html);
    }
    const into = this.querySelector("[data-into]");
    const same = into && [...into.options].find((one) => one.text === this.#into);
    if (same) into.value = same.value;
  }

  // Trying out: while something is dragged the answer follows, and nothing is written.
  tryOut(edit) {
    holdHeight(this.#part("answer"), this.#timers);
    this.#tries.ask({ ...this.#frame(), script: this.#script, edit });
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
    if (!values.trial && values.script !== this.text) return;
    if (!answer.ok) {
      if (answer.fault) this.#pinned(answer.fault);
      return;
    }
    if (this.#shown?.ok) this.box.showFaults([]);
    for (const [name, html] of Object.entries(answer.parts)) {
      if (name === "time" && this.time.busy) continue;
      exchange(this.#part(name), html);
    }
    this.time.choose(this.#chosen);
    if (values.trial) return;
    this.#way = answer.way;
    this.play.follow(values);
    this.repairs.follow(answer.stands, values);
  }

  #pinned(fault) {
    this.#part("answer").textContent = `Line ${fault.line} cannot happen: ${fault.asked}. ${fault.hint}`;
    this.box.showFaults([fault]);
    this.#part("time").classList.add("stale");
    this.play.old(true);
  }

  // Choosing ------------------------------------------------------------------------------------

  choose(chosen) {
    if (chosen === this.#chosen) return;
    this.#chosen = chosen;
    this.#chosenShown();
    this.look();
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
    if (script !== this.#script || this.previewing) return;
    const row = rows.indexOf(line);
    const name = Object.keys(marks).find((one) => marks[one] === line);
    const chosen = row >= 0 ? `row ${row}` : name;
    if (chosen) this.choose(chosen);
  }

  setWay(way) {
    this.#way = way;
    this.#run();
  }

  // Hearing -------------------------------------------------------------------------------------

  #listen() {
    this.addEventListener("click", (event) => this.#click(event));
    this.addEventListener("change", (event) => this.#change(event));
    document.addEventListener("keydown", (event) => {
      if (this.contains(event.target) || event.target === document.body) this.#key(event);
    });
    this.querySelector("[data-keep-form]").addEventListener("submit", (event) => {
      event.preventDefault();
      keepDrill(this, this.kept);
    });
    let width = this.clientWidth;
    const resized = () => {
      if (Math.abs(this.clientWidth - width) < 24) return;
      width = this.clientWidth;
      this.refresh();
    };
    new ResizeObserver(resized).observe(this);
  }

  #click(event) {
    const button = event.target.closest("button");
    if (!button) return;
    const { step, add, verb, choose, chooseRow, do: deed, preview, apply } = button.dataset;
    if (step) this.step(step);
    else if (add) event.detail === 0 ? this.hand.addSomewhere(add) : this.hand.arm(add);
    else if (verb) {
      this.hand.startVerb(button);
      if (event.detail === 0) this.querySelector("[data-aim-place]").focus();
    } else if (choose) this.hand.choose(choose);
    else if (chooseRow) this.choose(chooseRow);
    else if (deed) this.edit(JSON.parse(deed));
    else if (preview !== undefined) this.repairs.look(Number(preview));
    else if (apply !== undefined) {
      const words = button.closest("li").querySelector("strong").textContent;
      this.repairs.apply(this.repairs.script(Number(apply)), `Applied: ${words}`);
    } else if ("previewApply" in button.dataset) {
      this.repairs.apply(this.repairs.preview.script, `Applied: ${this.repairs.preview.words}`);
    } else if ("previewBack" in button.dataset) this.repairs.show(null);
    else if ("aimStop" in button.dataset) this.hand.stopAiming();
    else if ("aimSkip" in button.dataset) this.hand.skip();
    else if ("more" in button.dataset) {
      for (const one of this.querySelectorAll("[data-verb][hidden]")) one.hidden = false;
      button.remove();
    }
  }

  #change(event) {
    const field = event.target;
    if (field.matches("[data-view]")) {
      this.#view = field.value;
      this.look();
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
      const who = this.hand.leave();
      if (this.previewing) this.repairs.show(null);
      this.ice.leave();
      if (who) this.ice.focus(who);
      return;
    }
    if (field || event.altKey || event.ctrlKey || event.metaKey || event.key.length !== 1) return;
    if (event.shiftKey && /^[FDCHG]$/.test(event.key)) {
      event.preventDefault();
      this.hand.addSomewhere(event.key);
    } else if (event.key === "r") this.play.toggle();
    else if (!event.shiftKey) this.#verbKey(event);
  }

  #verbKey(event) {
    if (event.key === "m" && this.querySelector("[data-choose]")) {
      event.preventDefault();
      this.hand.choose(this.querySelector("[data-choose]").dataset.choose);
      return;
    }
    const button = this.querySelector(`[data-verb][data-key="${CSS.escape(event.key)}"]`);
    if (!button) return;
    event.preventDefault();
    this.hand.startVerb(button);
    if (this.aim) this.querySelector("[data-aim-place]").focus();
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
