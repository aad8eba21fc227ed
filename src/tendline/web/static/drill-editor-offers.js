// What was not finished is offered again; whatever is taken or left can be taken back.

export class Offers {
  #editor;
  #root;

  constructor(editor) {
    this.#editor = editor;
    this.#root = editor.querySelector("[data-offers]");
  }

  // A drill of a link needs no offers once somebody draws.
  drop() {
    for (const offer of this.#root.querySelectorAll(":scope > p:has(a)")) offer.remove();
  }

  #offer(words, ...links) {
    const line = document.createElement("p");
    line.className = "desk-offer";
    line.append(`${words} `, ...links.flatMap((one) => [one, " "]));
    this.#root.append(line);
    return line;
  }

  #button(words, deed) {
    const button = document.createElement("button");
    button.type = "button";
    button.textContent = words;
    button.addEventListener("click", deed);
    return button;
  }

  fresh(saved) {
    if (!saved) return;
    const words = this.#editor.dataset.base ? "What you had not finished is back." : "Your unfinished drill is back.";
    const otherwise = this.#editor.dataset.base ? "Start from the saved drill" : "Start with empty ice";
    const line = this.#offer(
      words,
      this.#button("Go on with it", () => line.remove()),
      this.#button(otherwise, () => {
        line.remove();
        this.#editor.commit(saved, otherwise);
        this.#editor.look();
      }),
    );
  }

  others() {
    const listed = [...this.#root.querySelectorAll("a")].map((one) => new URL(one.href).searchParams.get("draft"));
    for (const one of this.#editor.kept.others().filter((other) => !listed.includes(other.name)).slice(0, 2)) {
      const title = one.script.split("\n", 1)[0].split(":").slice(1).join(":").trim() || "a drill";
      const link = document.createElement("a");
      link.href = `/drills/new?draft=${one.name}`;
      link.textContent = "Go on with it";
      this.#offer(`Not finished, kept on this device: ${title}.`, link);
    }
  }

  newer(draft) {
    const line = this.#offer(
      "Another window has changed this drill.",
      this.#button("Take what it wrote", () => {
        line.remove();
        this.#editor.kept.outrun(draft.counter);
        this.#editor.commit(draft.script, "Taken from the other window");
        this.#editor.look();
      }),
      this.#button("Keep mine", () => {
        line.remove();
        this.#editor.kept.outrun(draft.counter);
        this.#editor.keep();
      }),
    );
  }
}
