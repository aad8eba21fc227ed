// Plays a drill's run inside one page, without any network. The data stand in #run as JSON.
// @ts-check

/** @typedef {{name: string, words: string, rate: number, times: number,
 *   people: Record<string, number[]>, puck: number[], her: number[], stances: string[], wanted: number[],
 *   lines: [number, string][],
 *   isSet: number[]}} Way */

/**
 * Value of a track at a frame that need not be whole: straight between two frames.
 * @param {number[]} track @param {number} frame @param {number} size @param {number} part
 */
export function between(track, frame, size, part) {
  const count = track.length / size;
  const low = Math.max(0, Math.min(Math.floor(frame), count - 1));
  const high = Math.min(low + 1, count - 1);
  const share = Math.max(0, Math.min(frame - low, 1));
  return track[low * size + part] * (1 - share) + track[high * size + part] * share;
}

/**
 * The angle halfway is taken the short way round.
 * @param {number} from @param {number} to @param {number} share
 */
export function turned(from, to, share) {
  let step = (to - from) % 360;
  if (step > 180) step -= 360;
  if (step < -180) step += 360;
  return from + step * share;
}

/**
 * Starts the player that stands in a page or in a part of it. Moments bubble as "tl-moment".
 * @param {Document | HTMLElement} page
 * @returns {{stop: () => void, toggle: () => void, at: () => number, seek: (seconds: number) => void}}
 */
export function start(page) {
  const data = /** @type {{ways: Way[], hidden: boolean}} */ (
    JSON.parse(page.querySelector("#run")?.textContent ?? "{}")
  );
  const byId = (/** @type {string} */ id) => /** @type {HTMLElement} */ (page.querySelector(`#${id}`));
  const slider = /** @type {HTMLInputElement} */ (byId("time"));
  const button = byId("play");
  const speed = /** @type {HTMLSelectElement} */ (byId("speed"));
  const choice = /** @type {HTMLSelectElement | null} */ (page.querySelector("#way"));
  let way = data.ways[0];
  let frame = 0;
  let playing = false;
  let last = 0;

  function draw() {
    for (const [name, track] of Object.entries(way.people)) {
      const one = page.querySelector(`[data-name="${CSS.escape(name)}"]`);
      const x = -between(track, frame, 2, 1);
      const y = -between(track, frame, 2, 0);
      one?.setAttribute("transform", `translate(${x} ${y})`);
    }
    const puck = page.querySelector(".tl-moving-puck");
    puck?.setAttribute("transform",
      `translate(${-between(way.puck, frame, 2, 1)} ${-between(way.puck, frame, 2, 0)})`);
    const low = Math.min(Math.floor(frame), way.times - 1);
    const high = Math.min(low + 1, way.times - 1);
    const angle = turned(way.her[low * 3 + 2], way.her[high * 3 + 2], frame - low);
    const stance = way.stances[low];
    for (const figure of page.querySelectorAll(".tl-her")) {
      const shown = figure.getAttribute("data-stance") === stance;
      figure.setAttribute("display", shown ? "inline" : "none");
      if (shown) {
        figure.setAttribute("transform",
          `translate(${-between(way.her, frame, 3, 1)} ${-between(way.her, frame, 3, 0)}) rotate(${-angle})`);
      }
    }
    page.querySelector(".tl-wanted")?.setAttribute("transform",
      `translate(${-between(way.wanted, frame, 2, 1)} ${-between(way.wanted, frame, 2, 0)})`);
    const said = way.lines.filter(([begin]) => begin <= frame);
    byId("line").textContent = said.length > 0 ? said[said.length - 1][1] : "";
    const set = way.isSet[low] === 1;
    byId("clock").textContent = `${(frame / way.rate).toFixed(1)} s`;
    byId("state").textContent = set ? "● set" : "▨ moving";
    byId("state").className = set ? "advice" : "risk";
    slider.value = String(frame);
    const her = [between(way.her, frame, 3, 0), between(way.her, frame, 3, 1)];
    page.dispatchEvent(new CustomEvent("tl-moment", {
      bubbles: true,
      detail: { way: data.ways.indexOf(way), seconds: frame / way.rate, her },
    }));
  }

  /** @param {number} now */
  function tick(now) {
    if (!playing) return;
    frame += ((now - last) / 1000) * way.rate * Number(speed.value);
    last = now;
    if (frame >= way.times - 1) {
      frame = way.times - 1;
      stop();
      if (data.hidden && choice?.value === "") byId("words").textContent = `It was: ${way.words}.`;
    }
    draw();
    if (playing) requestAnimationFrame(tick);
  }

  function stop() {
    playing = false;
    button.textContent = "Play";
  }

  function play() {
    if (frame >= way.times - 1) {
      frame = 0;
      if (data.hidden && choice?.value === "") pick();
    }
    playing = true;
    button.textContent = "Stop";
    last = performance.now();
    requestAnimationFrame(tick);
  }

  function pick() {
    const wanted = choice?.value ?? "0";
    const index = wanted === "" ? Math.floor(Math.random() * data.ways.length) : Number(wanted);
    way = data.ways[index];
    // While the way is hidden the rule is as long as the longest: its length must not tell.
    const longest = Math.max(...data.ways.map((one) => one.times));
    slider.max = String((data.hidden && wanted === "" ? longest : way.times) - 1);
    byId("words").textContent = wanted === "" ? "One of the ways; watch the carrier." : way.words;
  }

  button.addEventListener("click", () => (playing ? stop() : play()));
  byId("back").addEventListener("click", () => { stop(); frame = Math.max(0, Math.ceil(frame) - 1); draw(); });
  byId("on").addEventListener("click", () => { stop(); frame = Math.min(way.times - 1, Math.floor(frame) + 1); draw(); });
  slider.addEventListener("input", () => { stop(); frame = Math.min(Number(slider.value), way.times - 1); draw(); });
  choice?.addEventListener("change", () => { stop(); frame = 0; pick(); draw(); });
  pick();
  draw();
  return {
    stop,
    toggle: () => (playing ? stop() : play()),
    at: () => frame / way.rate,
    seek: (seconds) => { frame = Math.max(0, Math.min(seconds * way.rate, way.times - 1)); draw(); },
  };
}

if (typeof document !== "undefined" && document.querySelector("#run")) start(document);
