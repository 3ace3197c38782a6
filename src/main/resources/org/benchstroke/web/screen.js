// What every page needs: how something is sent, and how news are listened to.
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
    let source, heard;
    const open = () => {
      source = new EventSource(path);
      heard = Date.now();
      for (const [kind, told] of Object.entries(kinds)) {
        source.addEventListener(kind, (e) => {
          if (lost) { lost = false; status("", false); document.body.classList.remove("lost"); }
          heard = Date.now();
          told(JSON.parse(e.data));
        });
      }
      source.addEventListener("beat", () => { heard = Date.now(); });
    };
    let lost = false;
    open();
    setInterval(() => {
      if (!lost && Date.now() - heard > 5000) {
        lost = true;
        document.body.classList.add("lost");
        status("No news from the bench's computer: what stands here is old. The hard-wired stop works.", true);
      }
      if (source.readyState === EventSource.CLOSED) open();
    }, 1000);
    addEventListener("pagehide", () => source.close());
  }

  return { send, listen, status };
})();
