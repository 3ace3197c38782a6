// All stations: what changed is put in its tile; a tile that needs somebody grows, and rings.
"use strict";
(() => {
  const roads = new Map();
  const rung = new Map();
  const tiles = document.getElementById("tiles");

  function show(seen) {
    const tile = document.getElementById("tile-" + seen.letter);
    if (!roads.has(seen.letter)) roads.set(seen.letter, Road.make(tile.querySelector(".little-road"), true));
    roads.get(seen.letter)(seen);
    tile.dataset.stage = seen.stage;
    tile.dataset.output = seen.output;
    tile.classList.toggle("needs", seen.needs);
    tile.querySelector(".serial").textContent = seen.serial;
    tile.querySelector(".state").textContent = seen.stage === "ended" ? seen.verdictShape + " " + seen.verdict : seen.state;
    tile.querySelector(".output").textContent = seen.outputWords;
    tile.querySelector(".left").textContent = seen.stage === "running" ? Screen.span(seen.left) : "";
    const waits = seen.needs ? "needs" : seen.stage === "ended" ? "ended" : "";
    if (waits !== (rung.get(seen.letter) || "")) {
      rung.set(seen.letter, waits);
      if (waits === "needs") Screen.ring("call");
      if (waits === "ended") Screen.ring("ended");
    }
  }

  for (const tile of tiles.children) {
    const seen = JSON.parse(tile.dataset.tile);
    rung.set(seen.letter, seen.needs ? "needs" : seen.stage === "ended" ? "ended" : "");
    show(seen);
  }
  Screen.listen("/stations/live", { tiles: (all) => all.forEach(show) });

  for (const button of document.querySelectorAll("[data-tone]")) {
    button.addEventListener("click", () => Screen.ring(button.dataset.tone));
  }

  // A letter leads to its station.
  addEventListener("keydown", (e) => {
    if (e.ctrlKey || e.altKey || e.metaKey || e.repeat || !/^[a-z]$/i.test(e.key)) return;
    const tile = document.getElementById("tile-" + e.key.toUpperCase());
    if (tile) Screen.soon(() => tile.click());
  });
})();
