// Messages to and from the laptop. Nothing here is ever kept by the service worker.
const PATIENCE = 30_000;

/** The laptop was not heard, or answered what cannot be used. status is 0 where nothing came. */
export class NotHeard extends Error {
  constructor(status, words = "") {
    super(words || (status ? `the laptop answered ${status}` : "the laptop is not heard"));
    this.status = status;
  }
}

/** @returns {Promise<any>} */
export function ask(address) {
  return message(address, { method: "GET" });
}

/** @returns {Promise<any>} */
export function tell(address, body) {
  return message(address, {
    method: "POST",
    headers: { "Content-Type": "application/json", "X-CSRFToken": cookie("csrftoken") },
    body: JSON.stringify(body),
  });
}

async function message(address, options) {
  const answer = await fetched(address, options);
  const said = await answer.json().catch(() => null);
  if (answer.ok && said !== null) return said;
  const failed = new NotHeard(answer.status, said?.error);
  failed.said = said;
  throw failed;
}

async function fetched(address, options) {
  const giveUp = new AbortController();
  const timer = setTimeout(() => giveUp.abort(), PATIENCE);
  try {
    return await fetch(address, {
      ...options, credentials: "same-origin", cache: "no-store", redirect: "error", signal: giveUp.signal,
    });
  } catch {
    throw new NotHeard(0);
  } finally {
    clearTimeout(timer);
  }
}

function cookie(name) {
  const found = document.cookie.split("; ").find((each) => each.startsWith(`${name}=`));
  return found ? decodeURIComponent(found.slice(name.length + 1)) : "";
}
