// Beside a drill's run: follow the goaltender, and what the puck and she see at that moment.
// The pictures come from the program; only the newest moment is asked for.

const FOLLOWED = 9;

class DrillView extends HTMLElement {
  #moment = null;
  #waiting = false;
  #whole = "";

  connectedCallback() {
    document.addEventListener("tl-moment", (event) => {
      this.#moment = event.detail;
      this.#follow();
      this.#look();
    });
    this.addEventListener("change", () => {
      this.#follow();
      this.#look();
    });
  }

  #wants(name) {
    return this.querySelector(`[name="${name}"]`).checked;
  }

  #follow() {
    const svg = document.querySelector(".player svg");
    if (!svg || !this.#moment) return;
    this.#whole ||= svg.getAttribute("viewBox");
    const [x, y] = this.#moment.her;
    const half = FOLLOWED / 2;
    const near = `${-y - half} ${-x - FOLLOWED + 2} ${FOLLOWED} ${FOLLOWED}`;
    svg.setAttribute("viewBox", this.#wants("follow") ? near : this.#whole);
  }

  async #look() {
    const place = this.querySelector("[data-eyes]");
    place.hidden = !this.#wants("eyes");
    if (place.hidden || !this.#moment || this.#waiting) return;
    this.#waiting = true;
    const asked = this.#moment;
    try {
      const query = new URLSearchParams({ way: asked.way, seconds: asked.seconds.toFixed(2) });
      const reply = await fetch(`${this.dataset.from}?${query}`, { headers: { "X-Fragment": "1" } });
      if (reply.ok) place.innerHTML = await reply.text();
    } finally {
      this.#waiting = false;
    }
    if (this.#moment !== asked) this.#look();
  }
}

customElements.define("drill-view", DrillView);
