// Shows what the picks read while they are picked: asks the program, which decides; the newest
// question only. While it is out the last answer stays, greyed. Without script "Look again" asks.

class ColumnPicks extends HTMLElement {
  #form;
  #out = false;
  #again = false;
  #later = 0;

  connectedCallback() {
    this.#form = this.querySelector("form");
    for (const one of this.querySelectorAll(".no-script")) one.hidden = true;
    this.#form.addEventListener("change", (event) => {
      if (this.#matters(event.target)) this.#look();
    });
    this.#form.addEventListener("input", (event) => {
      if (event.target.matches("input:not([type=checkbox])") && this.#matters(event.target)) {
        clearTimeout(this.#later);
        this.#later = setTimeout(() => this.#look(), 400);
      }
    });
  }

  // What only matters once the table is kept or imported changes nothing that is shown.
  #matters(one) {
    return !["name", "day", "level", "only", "person", "replace", "leave_out"].includes(one.name);
  }

  async #look() {
    if (this.#out) {
      this.#again = true;
      return;
    }
    this.#out = true;
    const parts = [...this.querySelectorAll("[data-part]")];
    for (const one of parts) one.classList.add("stale");
    try {
      const reply = await fetch("/games/columns/look", {
        method: "POST",
        headers: { "X-Fragment": "1" },
        body: new FormData(this.#form),
      });
      const page = new DOMParser().parseFromString(await reply.text(), "text/html");
      if (!reply.ok) throw new Error(page.querySelector(".lead")?.textContent ?? "refused");
      if (!this.#again) this.#take(parts, page);
    } catch (fault) {
      this.querySelector("[data-part=answer] h1").textContent =
        `The program did not answer (${fault.message}). Your picks still stand here.`;
    } finally {
      for (const one of parts) one.classList.remove("stale");
      this.#out = false;
      if (this.#again) {
        this.#again = false;
        this.#look();
      }
    }
  }

  #take(parts, page) {
    const name = document.activeElement?.name;
    const index = name ? [...this.#form.elements].filter((one) => one.name === name).indexOf(document.activeElement) : -1;
    for (const one of parts) {
      const fresh = page.querySelector(`[data-part="${one.dataset.part}"]`);
      if (fresh && fresh.innerHTML !== one.innerHTML) one.innerHTML = fresh.innerHTML;
    }
    const only = this.#form.elements.only;
    const chosen = only.value;
    only.innerHTML = page.querySelector("select[name=only]").innerHTML;
    if ([...only.options].some((one) => one.value === chosen)) only.value = chosen;
    if (index >= 0 && document.activeElement === document.body) {
      [...this.#form.elements].filter((one) => one.name === name)[index]?.focus();
    }
  }
}

customElements.define("column-picks", ColumnPicks);
