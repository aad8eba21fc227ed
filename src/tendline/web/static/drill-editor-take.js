// Putting a finished drill among the coach's own, and taking its script away as a file.

export const keepDrill = async (editor, kept) => {
  const form = new URLSearchParams({ script: editor.script, base: editor.dataset.base, draft: kept.draft });
  try {
    const reply = await fetch("/drills/keep", { method: "POST", headers: { Accept: "application/json" }, body: form });
    const body = await reply.json();
    if (!reply.ok) {
      const { asked, came, allowed, hint } = body.error;
      editor.say([asked, came && `got ${came}`, allowed && `allowed: ${allowed}`, hint].filter(Boolean).join("; "), "risk");
      return;
    }
    kept.forget();
    location.assign(body.address);
  } catch {
    editor.say("The program does not answer. Everything is kept on this device; try again.", "risk");
  }
};

export const offerFile = (link, script) => {
  if (link.href.startsWith("blob:")) URL.revokeObjectURL(link.href);
  link.href = URL.createObjectURL(new Blob([script], { type: "text/plain" }));
  const number = /^drill (\S+):/.exec(script)?.[1] ?? "drill";
  link.download = `${number.replace(/[^A-Za-z0-9-]/g, "")}.drill`;
  link.hidden = false;
};
