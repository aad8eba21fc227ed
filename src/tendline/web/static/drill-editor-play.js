// The drill that is being written, running: the same moving picture as on a drill's page. It is asked
// for only while it is open; while the script cannot be run the last picture stays, greyed.
import { start } from "./drill-player.js";
import { Newest } from "./drill-editor-ask.js";

export class Play {
  #editor;
  #box;
  #part;
  #player = null;
  #asks;
  #shown = "";
  #starts = false;

  constructor(editor) {
    this.#editor = editor;
    this.#box = editor.querySelector("[data-play]");
    this.#part = editor.querySelector('[data-part="play"]');
    this.#asks = new Newest("/editor/play", (answer, values) => this.#take(answer, values), (busy) => this.#part.classList.toggle("waiting", busy));
    this.#box.hidden = false;
    this.#box.addEventListener("toggle", () => {
      if (this.#box.open) this.#ask();
      else this.#player?.stop();
    });
  }

  // Opens the picture and runs it; once more stops it.
  toggle() {
    if (this.#box.open && this.#player) {
      this.#player.toggle();
      return;
    }
    this.#starts = true;
    if (this.#box.open) this.#ask();
    else this.#box.open = true;
    this.#box.scrollIntoView({ block: "nearest" });
  }

  // The script was run by the program: what is shown follows it.
  follow(values) {
    this.old(false);
    if (this.#box.open && values.script !== this.#shown) this.#ask();
  }

  old(yes) {
    this.#part.classList.toggle("stale", yes);
  }

  #ask() {
    const width = this.#part.clientWidth || 460;
    this.#asks.ask({ script: this.#editor.text, width });
  }

  #take(answer, values) {
    if (!answer || values.script !== this.#editor.text) return;
    this.old(!answer.ok);
    if (!answer.ok) {
      if (!this.#player) this.#part.textContent = answer.words;
      return;
    }
    if (values.script === this.#shown && this.#player) {
      this.#begin();
      return;
    }
    const before = this.#chosen();
    const seconds = this.#player?.at() ?? 0;
    this.#player?.stop();
    this.#part.innerHTML = answer.html;
    this.#shown = values.script;
    this.#keep(before);
    this.#player = start(this.#part);
    if (seconds) this.#player.seek(seconds);
    this.#begin();
  }

  #begin() {
    if (this.#starts) this.#player.toggle();
    this.#starts = false;
  }

  #chosen() {
    const way = this.#part.querySelector("#way");
    return { way: way?.selectedOptions[0]?.text ?? "", speed: this.#part.querySelector("#speed")?.value };
  }

  // The way and the speed that were chosen stay chosen, as far as they are there still.
  #keep({ way, speed }) {
    const ways = this.#part.querySelector("#way");
    const same = way && ways && [...ways.options].find((one) => one.text === way);
    if (same) same.selected = true;
    if (speed) this.#part.querySelector("#speed").value = speed;
  }
}
