// A page that follows the ledger: the stream says that something changed, the page asks for it anew.
const place = document.querySelector("[data-live]");
const words = document.querySelector("[data-live-words]");
const QUIET_MS = 250;

if (place && words) {
  let waiting = null;
  let stream = null;

  const ask = () => {
    clearTimeout(waiting);
    // Several entries within a moment are one question.
    waiting = setTimeout(() => {
      for (const part of document.querySelectorAll("[data-follows]")) {
        part.dispatchEvent(new Event("changed"));
      }
    }, QUIET_MS);
  };
  const say = (text) => { if (words.textContent !== text) words.textContent = text; };

  const open = () => {
    if (stream) return;
    let wasOpen = false;
    stream = new EventSource(place.dataset.live);
    stream.addEventListener("changed", ask);
    stream.addEventListener("open", () => {
      say("This page follows the stations by itself.");
      place.dataset.liveState = "open";
      // What happened while nobody listened is asked for.
      if (wasOpen) ask();
      wasOpen = true;
    });
    stream.addEventListener("error", () => {
      place.dataset.liveState = "waiting";
      if (stream && stream.readyState === EventSource.CLOSED) {
        say("This page no longer follows the stations. Load it again; you may have to sign in.");
        stream = null;
      }
    });
  };
  const close = () => { if (stream) stream.close(); stream = null; };

  // A page that nobody sees holds no connection: browsers allow a few for one address.
  document.addEventListener("visibilitychange", () => {
    if (document.hidden) { close(); return; }
    open();
    ask();
  });
  addEventListener("pagehide", close);
  if (!document.hidden) open();
}
