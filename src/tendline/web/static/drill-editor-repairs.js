// What would mend a drill: looked at without writing it, or applied in one step.

import { Newest } from "./drill-editor-ask.js";
import { changedLines } from "./drill-editor-script.js";

const REST = 700;

export class Repairs {
  #editor;
  #root;
  #asks;
  #timer = 0;
  #scripts = [];

  constructor(editor, root) {
    this.#editor = editor;
    this.#root = root;
    this.preview = null;
    this.#asks = new Newest("/editor/repairs", (answer, values) => this.#mended(answer, values));
  }

  script(index) {
    return this.#scripts[index];
  }

  follow(stands, values) {
    clearTimeout(this.#timer);
    if (this.preview) return;
    if (!stands) {
      this.#root.replaceChildren();
      return;
    }
    this.#root.classList.add("waiting");
    this.#timer = setTimeout(() => this.#asks.ask(values), REST);
  }

  #mended(answer, values) {
    if (!answer || values.script !== this.#editor.script || this.preview) return;
    this.#scripts = answer.scripts;
    this.#root.classList.remove("waiting");
    this.#root.innerHTML = answer.parts.repairs;
  }

  look(index) {
    const words = this.#editor.querySelector(`[data-preview="${index}"]`).closest("li").querySelector("strong").textContent;
    this.show({ script: this.#scripts[index], words });
  }

  show(preview) {
    this.preview = preview;
    const on = preview !== null;
    this.#editor.classList.toggle("previewing", on);
    this.#editor.querySelector("[data-preview-bar]").hidden = !on;
    this.#editor.box.readOnly = on;
    this.#editor.box.put(this.#editor.text);
    this.#editor.box.mark("changed", on ? changedLines(this.#editor.script, preview.script) : []);
    if (on) {
      const words = `Only looked at: ${preview.words}. Changed lines are marked in the margin.`;
      this.#editor.querySelector("[data-preview-words]").textContent = words;
      this.#editor.querySelector("[data-preview-bar]").scrollIntoView({ block: "nearest" });
    }
    this.#editor.look();
  }

  apply(script, words) {
    this.show(null);
    this.#editor.commit(script, words);
    this.#editor.say(`${words}. Undo takes it back.`);
    this.#editor.look();
  }
}
