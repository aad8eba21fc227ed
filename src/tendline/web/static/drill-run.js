// Plays a simulated drill: draws people, puck and goaltender between the samples of the run.

const SVG = "http://www.w3.org/2000/svg";

const element = (name, attributes, parent) => {
  const made = document.createElementNS(SVG, name);
  for (const [key, value] of Object.entries(attributes)) made.setAttribute(key, value);
  parent?.append(made);
  return made;
};

class DrillRun extends HTMLElement {
  #tracks;
  #time = 0;
  #playing = false;
  #last = 0;
  #marks = new Map();
  #key = "";

  connectedCallback() {
    this.#tracks = JSON.parse(this.querySelector("script[type='application/json']").textContent);
    const keys = Object.keys(this.#tracks.branches);
    if (!keys.length || !this.#tracks.branches[keys[0]].t.length) return;
    this.querySelector("[data-controls]").hidden = false;
    this.#choose("");
    this.querySelector("[data-play]").addEventListener("click", () => this.#toggle());
    this.querySelector("[data-time]").addEventListener("input", (event) => {
      this.#stop();
      this.#time = (Number(event.target.value) / 1000) * this.#end;
      this.#draw();
    });
    this.querySelector("[data-branch]")?.addEventListener("change", (event) => this.#choose(event.target.value));
  }

  get #track() {
    return this.#tracks.branches[this.#key];
  }

  get #end() {
    return this.#track.t.at(-1);
  }

  // Hidden means: drawn by lot now, named only when the run is over.
  #choose(key) {
    const keys = Object.keys(this.#tracks.branches);
    this.hiddenBranch = key === "" && keys.length > 1;
    this.#key = key || keys[crypto.getRandomValues(new Uint32Array(1))[0] % keys.length];
    this.#time = 0;
    this.#stop();
    this.#populate();
    this.#draw();
    this.#say("");
  }

  #populate() {
    const svg = this.querySelector("[data-ice] svg");
    svg.querySelector(".tl-run")?.remove();
    const layer = element("g", { class: "tl-run" }, svg);
    this.#marks.clear();
    const her = element("g", {}, layer);
    element("path", { d: "M-0.75 -0.1A0.75 0.5 0 0 1 0.75 -0.1L0.4 0.3H-0.4Z", class: "tl-fill-advice" }, her);
    element("path", { d: "M0 -0.3V-1.1", class: "tl-line-advice", "stroke-width": 0.12 }, her);
    this.#marks.set("her", her);
    this.#track.names.forEach((name, index) => {
      const mark = element("g", {}, layer);
      const kind = name.startsWith("D") ? "M0 -0.75L0.7 0.5H-0.7Z" : null;
      if (kind) element("path", { d: kind, class: "tl-fill-sheet tl-line-ink", "stroke-width": 0.1 }, mark);
      else element("circle", { r: 0.62, class: "tl-fill-sheet tl-line-ink", "stroke-width": 0.1 }, mark);
      const text = element("text", { y: 0.24, "text-anchor": "middle", "font-size": 0.62, "font-weight": 700, class: "tl-fill-ink" }, mark);
      text.textContent = name;
      this.#marks.set(index, mark);
    });
    const puck = element("circle", { r: 0.22, class: "tl-fill-ink" }, layer);
    this.#marks.set("puck", puck);
  }

  #toggle() {
    if (this.#playing) return this.#stop();
    if (this.#time >= this.#end) {
      if (this.hiddenBranch) this.#choose("");
      this.#time = 0;
    }
    this.#playing = true;
    this.querySelector("[data-play]").textContent = "Stop";
    this.#last = performance.now();
    requestAnimationFrame((now) => this.#tick(now));
    return undefined;
  }

  #stop() {
    this.#playing = false;
    const button = this.querySelector("[data-play]");
    if (button) button.textContent = "Run it";
  }

  #tick(now) {
    if (!this.#playing) return;
    const speed = Number(this.querySelector("[data-speed]").value);
    this.#time = Math.min(this.#time + ((now - this.#last) / 1000) * speed, this.#end);
    this.#last = now;
    this.frames = (this.frames ?? 0) + 1;
    this.#draw();
    if (this.#time >= this.#end) {
      this.#stop();
      this.#finished();
      return;
    }
    requestAnimationFrame((next) => this.#tick(next));
  }

  #finished() {
    if (!this.hiddenBranch) return;
    const option = this.querySelector(`[data-branch] option[value="${CSS.escape(this.#key)}"]`);
    if (option) this.#say(`It was: ${option.textContent}.`);
  }

  #say(text) {
    this.querySelector("[data-said]").textContent = text;
  }

  #draw() {
    const track = this.#track;
    const place = Math.min(this.#time / this.#tracks.step, track.t.length - 1);
    const at = Math.floor(place);
    const next = Math.min(at + 1, track.t.length - 1);
    const share = place - at;
    const between = (a, b) => a + (b - a) * share;
    const put = (mark, a, b, turn = "") =>
      mark.setAttribute("transform", `translate(${-between(a[1], b[1])} ${-between(a[0], b[0])})${turn}`);
    track.names.forEach((_, index) => {
      put(this.#marks.get(index), track.people[at][index], track.people[next][index]);
    });
    put(this.#marks.get("puck"), track.puck[at], track.puck[next]);
    const facing = (-track.her[at][2] * 180) / Math.PI;
    put(this.#marks.get("her"), track.her[at], track.her[next], ` rotate(${facing})`);
    this.#marks.get("her").setAttribute("opacity", track.set[at] ? 1 : 0.55);
    this.querySelector("[data-clock]").textContent = `${this.#time.toFixed(1)} s`;
    this.querySelector("[data-time]").value = String(Math.round((1000 * this.#time) / this.#end));
  }
}

customElements.define("drill-run", DrillRun);
