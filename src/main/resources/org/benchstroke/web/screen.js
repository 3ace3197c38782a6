// What every page needs: how something is sent, how news are listened to, tones, scans, STOP.
"use strict";
const Screen = (() => {
  const token = () => document.body.dataset.token;
  const status = (text, lost) => {
    const foot = document.getElementById("status");
    foot.textContent = text;
    foot.classList.toggle("lost", !!lost);
  };

  // Sends a form's fields without leaving the page; says at the foot why something was not done.
  async function send(path, fields) {
    try {
      const answer = await fetch(path, {
        method: "POST",
        headers: { Accept: "text/plain" },
        body: new URLSearchParams({ token: token(), ...fields }),
      });
      if (!answer.ok) status(await answer.text(), true);
      return answer.ok;
    } catch (gone) {
      status("The bench's computer does not answer. A run goes on by its own rules; the hard-wired stop works.", true);
      return false;
    }
  }

  // Listens; a link that says nothing for too long is taken for lost, and said to be.
  function listen(path, kinds) {
    let source, heard, lost = false;
    const found = () => {
      heard = Date.now();
      if (lost) { lost = false; status("", false); document.body.classList.remove("lost"); }
    };
    const open = () => {
      source = new EventSource(path);
      heard = Date.now();
      for (const [kind, told] of Object.entries(kinds)) {
        source.addEventListener(kind, (e) => { found(); told(JSON.parse(e.data)); });
      }
      source.addEventListener("beat", found);
    };
    open();
    setInterval(() => {
      if (!lost && Date.now() - heard > 6000) {
        lost = true;
        document.body.classList.add("lost");
        status("No news from the bench's computer: what stands here is old. The hard-wired stop works.", true);
      }
      if (source.readyState === EventSource.CLOSED) open();
    }, 1000);
    addEventListener("pagehide", () => source.close());
  }

  const span = (seconds) => {
    const whole = Math.round(seconds);
    return whole >= 90 ? Math.round(whole / 60) + " min" : whole + " s";
  };

  // --- tones: one pitch, told apart by rhythm alone; each number is ms of sound, then of silence ---
  const RHYTHMS = {
    read: [80, 0],
    caution: [400, 150, 400, 150, 120, 0],
    motion: [120, 80, 120, 80, 120, 300, 120, 80, 120, 80, 120, 0],
    call: [150, 100, 150, 0],
    ended: [700, 0],
    pass: [120, 120, 600, 0],
    fail: [600, 200, 600, 200, 600, 0],
  };
  let audio = null;
  function ring(name) {
    const rhythm = RHYTHMS[name];
    try {
      // Before anybody has touched the page a browser lets nothing sound.
      if (navigator.userActivation && !navigator.userActivation.hasBeenActive) return;
      audio = audio || new AudioContext();
      if (audio.state === "suspended") audio.resume();
      let when = audio.currentTime + 0.02;
      for (let i = 0; i < rhythm.length; i += 2) {
        const tone = audio.createOscillator(), gain = audio.createGain();
        tone.type = "square";
        tone.frequency.value = 880;
        gain.gain.setValueAtTime(0.0001, when);
        gain.gain.linearRampToValueAtTime(0.18, when + 0.01);
        gain.gain.setValueAtTime(0.18, when + rhythm[i] / 1000 - 0.01);
        gain.gain.linearRampToValueAtTime(0.0001, when + rhythm[i] / 1000);
        tone.connect(gain).connect(audio.destination);
        tone.start(when);
        tone.stop(when + rhythm[i] / 1000 + 0.02);
        when += (rhythm[i] + rhythm[i + 1]) / 1000;
      }
    } catch (noSound) {
      // A computer without sound still shows everything.
    }
  }

  // --- STOP: without leaving the page where scripts are there ---------------------------------------
  const form = document.getElementById("stop-form");
  function stop() {
    if (!form) return Promise.resolve(false);
    document.getElementById("stop").classList.add("pressed");
    setTimeout(() => document.getElementById("stop").classList.remove("pressed"), 600);
    status("Stop asked for.");
    return send(form.getAttribute("action"), {});
  }
  if (form) form.addEventListener("submit", (e) => { e.preventDefault(); stop(); });

  // --- scans: keys that come faster than fingers, ended by Enter, wherever the cursor is --------------
  const FASTEST_FINGER = 35, SHORTEST = 4;
  let typed = "", begun = 0, last = 0, before = null, delayed = null;
  const api = { send, listen, status, span, ring, stop, onScan: (text) => location.assign("/scan?text=" + encodeURIComponent(text)) };
  addEventListener("keydown", (e) => {
    // A secret is no scan, however fast it is typed: a scan goes into an address.
    if (e.ctrlKey || e.altKey || e.metaKey || e.target.type === "password") return;
    const now = performance.now();
    if (e.key === "Enter") {
      const scan = typed.length >= SHORTEST && now - last < 100 && (now - begun) / typed.length < FASTEST_FINGER;
      const text = typed.trim();
      typed = "";
      if (!scan) return;
      e.preventDefault();
      e.stopImmediatePropagation();
      if (before) before.field.value = before.value;
      clearTimeout(delayed);
      api.onScan(text);
      return;
    }
    if (e.key === "Shift") return;
    if (e.key.length !== 1) { typed = ""; return; }
    if (now - last > 100 || !typed) {
      typed = "";
      begun = now;
      before = "value" in e.target && e.target.tagName === "INPUT" ? { field: e.target, value: e.target.value } : null;
    }
    typed += e.key;
    last = now;
  }, true);
  // What a single key does waits a moment: it may be the first of a scan.
  api.soon = (act) => {
    clearTimeout(delayed);
    delayed = setTimeout(() => { if (typed.length <= 1) act(); }, 120);
  };
  return api;
})();
