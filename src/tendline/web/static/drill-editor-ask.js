// Questions to the program: one at a time of a kind, and while one is out only the newest is kept.

export class Refusal extends Error {
  constructor(status, error, body) {
    super(error ? [error.item, error.asked, error.came && `got ${error.came}`, error.allowed && `allowed: ${error.allowed}`, error.hint].filter(Boolean).join("; ") : "That was refused.");
    this.status = status;
    this.body = body;
  }
}

// Returns the answer; throws Refusal when the program says no, anything else when it is not there.
export const ask = async (address, values, method = "POST") => {
  const reply = await fetch(address, {
    method,
    headers: { "Content-Type": "application/json", Accept: "application/json" },
    body: values === undefined ? undefined : JSON.stringify(values),
  });
  let body = null;
  try {
    body = await reply.json();
  } catch {
    if (reply.ok) throw new Error("an answer that cannot be read");
  }
  if (reply.status >= 500) throw new Error(`status ${reply.status}`);
  if (!reply.ok) throw new Refusal(reply.status, body?.error, body);
  return body;
};

export class Newest {
  #address;
  #take;
  #busy;
  #out = false;
  #next = null;

  constructor(address, take, busy = () => {}) {
    this.#address = address;
    this.#take = take;
    this.#busy = busy;
  }

  ask(values) {
    this.#next = values;
    if (!this.#out) this.#go();
  }

  forget() {
    this.#next = null;
  }

  async #go() {
    this.#out = true;
    this.#busy(true);
    while (this.#next) {
      const values = this.#next;
      this.#next = null;
      try {
        const answer = await ask(this.#address, values);
        if (!this.#next) this.#take(answer, values);
      } catch (fault) {
        if (!this.#next) this.#take(null, values, fault);
      }
    }
    this.#out = false;
    this.#busy(false);
  }
}
