// A set-up's live part: lamp, dial, what to do now, and a tone at each change.
"use strict";
(() => {
  const page = document.querySelector(".set-up[data-live]");
  if (!page) return;
  const shown = JSON.parse(page.dataset.live);
  const key = (live) => live.number + "/" + live.ended + "/" + live.done.join();
  const at = (id) => document.getElementById(id);
  const minus = (text) => text.replace("-", "\u2212");
  const degrees = (value, places) => minus(value.toFixed(places)) + "°";
  let changes = shown.changes;

  function dial(live) {
    const box = at("dial");
    if (!box) return;
    if (live.degrees === undefined) { box.replaceChildren(); return; }
    // The travel lies over a half circle; what is beyond its ends still shows.
    const turn = (value) => Math.PI - Math.max(-0.12, Math.min(1.12, value / live.travel)) * Math.PI;
    const on = (r, a) => (200 + r * Math.cos(a)).toFixed(1) + " " + (190 - r * Math.sin(a)).toFixed(1);
    let goal = "";
    if (live.target !== undefined) {
      const half = Math.max(live.tolerance || 0, live.travel / 180);
      goal = `<path class="goal" d="M${on(160, turn(live.target - half))}A160 160 0 0 1 ${on(160, turn(live.target + half))}"/>`;
    }
    box.innerHTML = `<svg viewBox="0 0 400 250" aria-hidden="true"><path class="scale" d="M40 190A160 160 0 0 1 360 190"/>${goal}
<path class="pointer" d="M200 190L${on(140, turn(live.degrees))}"/><circle cx="200" cy="190" r="10"/>
<text x="44" y="216">closed</text><text x="356" y="216">open</text><text class="big" x="200" y="240">${degrees(live.degrees, 1)}</text></svg>`;
    box.setAttribute("aria-label", "The stem's angle: " + degrees(live.degrees, 1));
  }

  function draw(live) {
    if (at("hint")) at("hint").textContent = live.hint || "";
    if (at("lamp")) {
      at("lamp").classList.toggle("made", live.made === true);
      at("lamp-word").textContent = live.made === undefined ? "not watched: listen" : live.made ? "MADE" : "open";
    }
    dial(live);
    const lines = [];
    const within = (edge) => degrees(edge.at, 1) + (edge.within > 0 ? " ± " + edge.within.toFixed(edge.within < 0.05 ? 2 : 1) + "°" : "");
    if (live.target !== undefined) lines.push("to " + degrees(live.target, 1));
    if (live.trip) lines.push("trips at " + within(live.trip));
    if (live.reset) lines.push("resets at " + within(live.reset));
    if (live.calibration) lines.push(live.calibration);
    if (live.degrees === undefined && live.percent !== undefined) lines.push("position " + minus(live.percent.toFixed(1)) + " %");
    if (live.fault) lines.push("! " + live.fault);
    if (at("figures")) at("figures").textContent = lines.join("\n");
    if (live.changes > changes) Screen.ring(live.made ? "call" : "read");
    changes = live.changes;
  }

  draw(shown);
  Screen.listen("/set-up/" + page.dataset.letter + "/live", {
    live: (live) => {
      // Another question is another page; what is being typed here is not thrown away for a lamp.
      if (key(live) !== key(shown)) { location.reload(); return; }
      draw(live);
    },
  });
  if (document.querySelector(".caution-box")) Screen.ring(at("clear") ? "motion" : "caution");
})();
