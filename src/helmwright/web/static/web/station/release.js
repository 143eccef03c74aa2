// The service worker keeps the page of one release for a reload without the laptop. A newer release
// waits until somebody starts it; never does it come in the middle of a visit.

/** @param told gets {alone, start}: alone where this browser allows no service worker here */
export async function serviceWorker(told) {
  if (!("serviceWorker" in navigator)) { told({ alone: true, start: null }); return; }
  try {
    const registration = await navigator.serviceWorker.register("/station/sw.js", { scope: "/station/" });
    const look = () => told({ alone: false, start: registration.waiting && navigator.serviceWorker.controller ? start(registration) : null });
    registration.addEventListener("updatefound", () => registration.installing?.addEventListener("statechange", look));
    look();
  } catch {
    told({ alone: true, start: null });
  }
}

function start(registration) {
  return () => {
    navigator.serviceWorker.addEventListener("controllerchange", () => location.reload());
    registration.waiting.postMessage("start");
  };
}
