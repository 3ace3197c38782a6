// One station, whatever it does: its job form, its road, its questions.
"use strict";
(() => {
  const page = document.querySelector(".station");
  const letter = page.dataset.letter;
  const base = "/station/" + letter;
  const $ = (id) => document.getElementById(id);
  let seen = JSON.parse(page.dataset.seen);

  // --- the job form: a scan goes to the serial number, wherever the cursor is ----------------
  const form = $("job-form");
  if (form) {
    const fill = (serial, order) => {
      $("serial").value = serial;
      if (order) $("order").value = order;
      const empty = [...form.querySelectorAll("input[required]")].find((i) => !i.value.trim());
      if (empty) { empty.focus(); Screen.ring("read"); } else form.requestSubmit();
    };
    Screen.onScan = (text) => {
      if (text === seen.serial) Screen.status("Unit " + text + " again: its next attempt.");
      fill(text);
    };
    for (const card of document.querySelectorAll(".card")) {
      card.addEventListener("click", () => fill(card.dataset.serial, card.dataset.order));
    }
  } else {
    Screen.onScan = () => Screen.status("Not taken: finish or stop this unit before you scan the next.", true);
  }

  // --- the road and what stands around it -----------------------------------------------------
  const running = page.dataset.stage === "running";
  const road = running ? Road.make($("road"), false) : null;
  const text = (id, words) => { const node = $(id); if (node && node.textContent !== words) node.textContent = words; };
  const percent = (value) => (value === null ? "–" : Road.number(value, 2) + " %");

  function show(next) {
    seen = next;
    if (next.stage !== page.dataset.stage) { leave(next); return; }
    if (!running) return;
    road(next);
    text("state", next.state);
    text("holder", (next.holder || "another screen") + (next.mine ? " holds this station, here" : " holds this station"));
    text("output", next.outputWords);
    $("output").dataset.output = next.output;
    page.dataset.count = next.count;
    text("left", next.left > 0 ? (next.here > 0 ? Screen.span(next.here) + " here · " : "") + Screen.span(next.left) + " to the end" : "");
    text("setpoint", percent(next.setpoint));
    text("position", percent(next.position));
    $("stem-box").hidden = next.stem === null;
    if (next.stem !== null) text("stem", Road.number(next.stem, 2) + "°");
    $("loop-box").hidden = next.loop === null;
    if (next.loop !== null) text("loop", Road.number(next.loop, 3) + " mA");
    lamps(next.switches);
    marks(next.tests);
    text("so-far", next.soFar);
    $("so-far").classList.toggle("beyond", next.beyond);
    said(next.said);
    ask(next);
  }

  // The page that fits; a verdict is heard first, for a new page may not sound by itself.
  let leaving = false;
  function leave(next) {
    if (leaving) return;
    leaving = true;
    const ended = running && next.stage === "ended";
    if (ended) { text("state", next.verdict); Screen.ring(next.verdict === "passed" ? "pass" : "fail"); }
    setTimeout(() => location.replace(base), ended ? 1500 : 0);
  }

  let lampsShown = "", marksShown = "", saidShown = "";
  function lamps(list) {
    const key = JSON.stringify(list);
    if (key === lampsShown) return;
    lampsShown = key;
    $("lamps").replaceChildren(...list.map(([name, made]) => {
      const item = document.createElement("li");
      item.className = made ? "made" : "";
      item.textContent = (made ? "▣ " : "▢ ") + name + (made ? ": made" : ": not made");
      return item;
    }));
  }
  function marks(list) {
    const key = JSON.stringify(list);
    if (key === marksShown) return;
    marksShown = key;
    $("marks").replaceChildren(...list.map((test) => {
      const item = document.createElement("li");
      item.className = test.mark;
      const shape = document.createElement("span");
      shape.className = "mark"; shape.ariaHidden = "true"; shape.textContent = test.shape;
      const word = document.createElement("span");
      word.className = "word"; word.textContent = test.word + (test.attempt > 1 ? ", attempt " + test.attempt : "");
      item.append(shape, test.name + " ", word);
      return item;
    }));
  }
  function said(list) {
    const key = JSON.stringify(list);
    if (key === saidShown) return;
    saidShown = key;
    $("said").replaceChildren(...list.map((words) => {
      const item = document.createElement("li");
      item.textContent = words;
      return item;
    }));
  }

  // --- the last minute ---------------------------------------------------------------------------
  let plot = null;
  const data = [[], [], [], [], []];
  function points(piece) {
    if (!running) return;
    if (piece.whole) data.forEach((d) => (d.length = 0));
    for (const [seconds, setpoint, position] of piece.points) {
      data[0].push(seconds);
      data[1].push(setpoint);
      data[2].push(position);
      data[3].push(setpoint === null || seen.band === null ? null : setpoint + seen.band);
      data[4].push(setpoint === null || seen.band === null ? null : setpoint - seen.band);
    }
    const last = data[0][data[0].length - 1];
    let old = 0;
    while (data[0][old] < last - 60) old++;
    if (old) data.forEach((d) => d.splice(0, old));
    draw();
  }
  function draw() {
    const box = $("plot");
    const width = box.clientWidth, height = Math.max(120, box.clientHeight);
    if (!width) return;
    if (!plot) {
      const ink = "#15181d";
      const axis = { stroke: ink, grid: { stroke: "#d8d2c2", width: 1 }, ticks: { stroke: ink }, font: "14px sans-serif" };
      plot = new uPlot({
        width, height, legend: { show: false }, cursor: { show: false },
        scales: {
          x: { time: false, range: (u, low, high) => [Math.max(0, high - 60), Math.max(60, high)] },
          y: { range: (u, low, high) => {
            const middle = (low + high) / 2, half = Math.max(2.5, ((high - low) / 2) * 1.08);
            return [middle - half, middle + half];
          } },
        },
        axes: [
          { ...axis, values: (u, all) => all.map((v) => Math.round(v) + " s"), size: 32 },
          { ...axis, size: 52, values: (u, all) => all.map((v) => String(Math.round(v * 10) / 10).replace("-", "−")) },
        ],
        series: [
          {},
          { stroke: ink, width: 2, dash: [9, 5], points: { show: false } },
          { stroke: "#00447c", width: 3.5, points: { show: false } },
          { stroke: "#8c1d04", width: 1.5, dash: [3, 4], points: { show: false } },
          { stroke: "#8c1d04", width: 1.5, dash: [3, 4], points: { show: false } },
        ],
      }, data, box);
    } else {
      if (plot.width !== width || plot.height !== height) plot.setSize({ width, height });
      plot.setData(data);
    }
  }

  // --- questions: answered by whoever has read them ------------------------------------------------
  let open = null;       // the id of the question that stands here
  let readable = false;  // whether this screen has said so, and it was taken
  let holding = null;

  function ask(next) {
    const asked = next.asked;
    const question = $("question");
    if (!asked) {
      open = null; readable = false; letGo();
      question.hidden = true; $("keys").hidden = true;
      return;
    }
    if (open !== asked.id) {
      open = asked.id; readable = false; letGo();
      $("question-title").textContent = asked.title;
      $("question-text").textContent = asked.text;
      $("question-picture").hidden = !asked.picture;
      if (asked.picture) $("question-picture").src = "/static/" + asked.picture;
      $("question-echo").hidden = !asked.echo.length;
      $("question-echo").replaceChildren(...asked.echo.map(([name, value]) => {
        const row = document.createElement("div"), dt = document.createElement("dt"), dd = document.createElement("dd");
        dt.textContent = name; dd.textContent = value; row.append(dt, dd);
        return row;
      }));
      $("question-figure").hidden = asked.unit === undefined;
      $("figure").value = "";
      if (asked.unit !== undefined) {
        $("figure-unit").textContent = "in " + asked.unit;
        $("figure-allowed").textContent = "Allowed: " + asked.allowed + ".";
      }
      question.hidden = false;
      Screen.ring(asked.motion ? "motion" : "caution");
    }
    $("keys").hidden = false;
    $("yes").hidden = $("no").hidden = !next.mine;
    $("take-over").hidden = next.mine;
    $("question-other").hidden = next.mine;
    if (!next.mine) $("question-other").textContent = (next.holder || "Another screen") + " answers this, at another screen.";
    $("yes-words").textContent = asked.key + " ▶";
    $("yes").classList.toggle("holds", asked.motion);
    $("yes").disabled = !readable;
    if (next.mine && !asked.shown) tellShown(asked);
    if (next.mine && asked.shown && !readable) {
      readable = true;
      $("yes").disabled = false;
      ($("question-figure").hidden ? $("yes") : $("figure")).focus();
    }
  }

  let telling = null;
  // Only when it was painted, on a page that is in sight.
  function tellShown(asked) {
    if (telling === asked.id) return;
    telling = asked.id;
    const painted = () => requestAnimationFrame(() => requestAnimationFrame(() => {
      if (open === asked.id) Screen.send(base + "/shown", { id: asked.id });
      setTimeout(() => { if (telling === asked.id) telling = null; }, 1000);
    }));
    if (document.visibilityState === "visible") painted();
    else document.addEventListener("visibilitychange", painted, { once: true });
  }

  const asked = () => (seen.asked && seen.asked.id === open && seen.mine && readable ? seen.asked : null);

  function press() {
    const question = asked();
    if (!question || holding) return;
    if (question.motion) {
      holding = { id: question.id, timer: 0, full: false };
      const mine = holding;
      $("yes").classList.add("held");
      Screen.send(base + "/hold", { id: question.id }).then((ok) => {
        if (!ok || holding !== mine) return;
        mine.timer = setTimeout(() => {
          mine.full = true;
          letGo();
          Screen.send(base + "/agree", { id: question.id });
        }, question.hold + 60);
      });
    } else if (question.unit !== undefined) {
      Screen.send(base + "/figure", { id: question.id, figure: $("figure").value });
    } else {
      Screen.send(base + "/agree", { id: question.id });
    }
  }
  function letGo() {
    if (!holding) return;
    const was = holding;
    clearTimeout(was.timer);
    holding = null;
    $("yes").classList.remove("held");
    if (!was.full) Screen.send(base + "/release", { id: was.id });
  }
  function refuse() {
    const question = asked();
    if (question) Screen.send(base + "/refuse", { id: question.id });
  }

  if (running) {
    const yes = $("yes");
    yes.style.setProperty("--hold", (seen.asked ? seen.asked.hold : 900) + "ms");
    yes.addEventListener("pointerdown", (e) => { e.preventDefault(); press(); });
    for (const kind of ["pointerup", "pointerleave", "pointercancel"]) yes.addEventListener(kind, letGo);
    yes.addEventListener("contextmenu", (e) => e.preventDefault());
    $("no").addEventListener("click", refuse);
    addEventListener("blur", letGo);
    addEventListener("keydown", (e) => {
      if (e.key === " " && e.target.id !== "figure") { e.preventDefault(); if (!e.repeat) Screen.stop(); return; }
      if (e.repeat || e.ctrlKey || e.altKey || e.metaKey) { if (e.key === "Enter") e.preventDefault(); return; }
      if (e.key === "Escape") { e.preventDefault(); refuse(); }
      if (e.key === "Enter" && !["no", "stop"].includes(e.target.id) && e.target.tagName !== "A") { e.preventDefault(); press(); }
    });
    addEventListener("keyup", (e) => { if (e.key === "Enter") letGo(); });
    addEventListener("resize", draw);
  } else if (page.dataset.stage === "taken") {
    addEventListener("keydown", (e) => {
      if (e.key === "Escape") $("back").click();
    });
  }

  show(seen);
  Screen.listen(base + "/live", { seen: show, points });
})();
