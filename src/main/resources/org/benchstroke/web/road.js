// The road: travel from 0 to 100 % with the unit on it. One drawing for a page and for a tile.
"use strict";
const Road = (() => {
  const NS = "http://www.w3.org/2000/svg";
  const LEFT = 40, WIDTH = 920, Y = 118;
  const at = (percent) => LEFT + (WIDTH * Math.max(-4, Math.min(104, percent))) / 100;
  const el = (name, attributes, text) => {
    const node = document.createElementNS(NS, name);
    for (const [key, value] of Object.entries(attributes)) node.setAttribute(key, value);
    if (text !== undefined) node.textContent = text;
    return node;
  };
  const number = (value, digits) => value.toFixed(digits).replace("-", "−");

  function make(box, little) {
    const height = little ? 70 : 214;
    const svg = el("svg", { viewBox: `0 ${little ? 84 : 14} 1000 ${height}`, class: little ? "small" : "whole", "aria-hidden": "true" });
    svg.append(
      el("rect", { class: "tar", x: LEFT - 14, y: Y - 22, width: WIDTH + 28, height: 44, rx: 4 }),
      el("path", { class: "dash", d: `M${LEFT} ${Y}H${LEFT + WIDTH}` }));
    if (!little) {
      for (let p = 0; p <= 100; p += 25) {
        svg.append(el("path", { class: "tick", d: `M${at(p)} ${Y + 22}v10` }),
          el("text", { class: "scale", x: at(p), y: Y + 52 }, p + " %"));
      }
    }
    const band = el("g", {}), readings = el("g", {});
    const flag = el("g", { class: "flag" });
    flag.append(el("path", { class: "pole", d: little ? `M0 ${Y + 20}V${Y - 32}` : `M0 ${Y + 22}V${Y - 62}` }),
      el("path", { class: "cloth", d: little ? `M0 ${Y - 32}l26 10l-26 10z` : `M0 ${Y - 62}l34 13l-34 13z` }));
    const marker = el("g", { class: "marker" });
    marker.append(el("path", { d: little ? `M-22 ${Y - 15}h26l18 15l-18 15h-26l10-15z` : `M-26 ${Y - 17}h30l20 17l-20 17h-30l11-17z` }));
    svg.append(band, readings, flag, marker);
    box.replaceChildren(svg);
    let last = null, upward = true, drawn = "";

    // Each reading stands at its setpoint, moved by its error, magnified so that a gap is seen.
    function leave(list, withBand) {
      const key = JSON.stringify([list, withBand]);
      if (little || key === drawn) return;
      drawn = key;
      readings.replaceChildren();
      band.replaceChildren();
      const newest = new Map();
      for (const [setpoint, percent, up] of list) newest.set(setpoint + (up ? "u" : "d"), [setpoint, percent, up]);
      const points = new Set();
      // An agreed band of 1 % is 37 of the road's thousand: points eleven to the road still keep apart.
      const magnified = 4 / Math.max(1, withBand || 1);
      for (const [setpoint, percent, up] of newest.values()) {
        const x = at(setpoint) + ((percent - setpoint) * magnified * WIDTH) / 100;
        const y = up ? Y - 34 : Y + 34;
        readings.append(el("path", { class: "left-behind", d: up ? `M${x - 9} ${y - 9}l14 9l-14 9z` : `M${x + 9} ${y - 9}l-14 9l14 9z` }),
          el("text", { class: "value", x: at(setpoint), y: up ? Y - 50 : Y + 78 }, number(percent, 2)));
        points.add(setpoint);
      }
      if (withBand) {
        const half = (withBand * magnified * WIDTH) / 100;
        for (const point of points) {
          for (const row of [Y - 34, Y + 34]) {
            for (const side of [-1, 1]) {
              const x = at(point) + side * half;
              for (let i = 0; i < 4; i++) {
                band.append(el("rect", { class: i % 2 ? "kerb light" : "kerb", x: x - 3, y: row - 12 + i * 6, width: 6, height: 6 }));
              }
            }
          }
        }
      }
      if (points.size) {
        readings.append(el("text", { class: "note", x: LEFT - 14, y: Y - 82 }, "▶ readings upward, above"),
          el("text", { class: "note", x: LEFT - 14, y: Y + 100 }, "◀ readings downward, below"),
          el("text", { class: "note end", x: LEFT + WIDTH + 14, y: Y + 100 }, `errors drawn ${Math.round(magnified * 10) / 10} × the road's scale` + (withBand ? ", kerbs: the agreed band" : "")));
      }
    }

    return function show(seen) {
      const { setpoint, position } = seen;
      flag.setAttribute("visibility", setpoint === null ? "hidden" : "visible");
      if (setpoint !== null) flag.setAttribute("transform", `translate(${at(setpoint)} 0)`);
      marker.setAttribute("visibility", position === null ? "hidden" : "visible");
      if (position !== null) {
        if (last !== null && Math.abs(position - last) > 0.3) { upward = position > last; last = position; }
        if (last === null) last = position;
        marker.setAttribute("transform", `translate(${at(position)} 0)` + (upward ? "" : " scale(-1 1)"));
      }
      leave(seen.readings, seen.band);
    };
  }

  return { make, number };
})();
