// One piece at a time, with ticks that stay; without this script all pieces stand below each other.

const body = document.body;
const whole = document.getElementById("cloth-side");
const all = document.getElementById("all");
const turns = [...whole.querySelectorAll(".turn")];
const before = document.getElementById("before");
const next = document.getElementById("next");
const over = document.getElementById("over");
const KEY = `cloth-side ${whole.dataset.mark}`;
const HAND = "cloth-side hand";

/** What is kept on this device; nothing where it keeps nothing. */
function kept(key) {
  try { return localStorage.getItem(key); } catch { return null; }
}
function keep(key, text) {
  try { text === null ? localStorage.removeItem(key) : localStorage.setItem(key, text); } catch { /* not kept, still ticked */ }
}

// ---- ticks
let ticked = new Set();
try { ticked = new Set(JSON.parse(kept(KEY) ?? "[]")); } catch { /* begun anew */ }

function mark() {
  for (const turn of turns) {
    for (const box of turn.querySelectorAll("[data-does]")) box.checked = ticked.has(`${turn.dataset.key} ${box.dataset.does}`);
    const told = all.querySelector(`[data-turn="${turn.id.slice(5)}"] .ticks`);
    told.textContent = ["chalked", "cut"].filter((does) => ticked.has(`${turn.dataset.key} ${does}`)).map((does) => `✓ ${told.dataset[does]}`).join("  ");
  }
  document.getElementById("again").hidden = !ticked.size;
}

whole.addEventListener("change", (event) => {
  const { does } = event.target.dataset;
  if (!does) return;
  const { key } = event.target.closest(".turn").dataset;
  // what is cut was chalked
  if (event.target.checked) { ticked.add(`${key} ${does}`); if (does === "cut") ticked.add(`${key} chalked`); }
  else ticked.delete(`${key} ${does}`);
  keep(KEY, JSON.stringify([...ticked]));
  mark();
});
addEventListener("storage", (event) => {
  if (event.key !== KEY) return;
  ticked = new Set(JSON.parse(event.newValue ?? "[]"));
  mark();
});
document.getElementById("again").addEventListener("click", (event) => {
  if (!confirm(event.currentTarget.dataset.sure)) return;
  ticked.clear();
  keep(KEY, null);
  mark();
});

// ---- one at a time
let at = 0;

/** The piece in the address; 0 for all of them. */
function show(focus) {
  at = Math.min(Number(/^#turn-(\d+)$/.exec(location.hash)?.[1] ?? 0), turns.length);
  turns.forEach((turn, i) => { turn.hidden = i + 1 !== at; });
  all.hidden = at > 0;
  body.classList.toggle("one-piece", at > 0);
  before.href = at > 1 ? `#turn-${at - 1}` : "#all";
  next.href = at < turns.length ? `#turn-${at + 1}` : "#all";
  before.hidden = at === 0;
  over.hidden = at === 0;
  if (focus) {
    scrollTo(0, 0);
    (at ? turns[at - 1].querySelector("h2") : document.getElementById("main")).focus({ preventScroll: true });
  }
  if (at) stay();
}
addEventListener("hashchange", () => show(true));
addEventListener("keydown", (event) => {
  if (event.altKey || event.ctrlKey || event.metaKey || event.shiftKey) return;
  if (event.key === "ArrowRight") next.click();
  else if (event.key === "ArrowLeft" && at) before.click();
  else if (event.key === "Escape" && at) over.click();
});

let down = null;
whole.addEventListener("touchstart", (event) => {
  down = event.touches.length === 1 ? event.touches[0] : null;
}, { passive: true });
whole.addEventListener("touchend", (event) => {
  const up = event.changedTouches[0];
  const far = down && up.clientX - down.clientX;
  if (down && Math.abs(far) > 60 && Math.abs(far) > 2 * Math.abs(up.clientY - down.clientY)) {
    if (far < 0) next.click();
    else if (at) before.click();
  }
  down = null;
}, { passive: true });

// ---- the hand
const hand = document.getElementById("left-handed");
hand.checked = kept(HAND) === "left";
body.classList.toggle("left-handed", hand.checked);
hand.addEventListener("change", () => {
  body.classList.toggle("left-handed", hand.checked);
  keep(HAND, hand.checked ? "left" : null);
});

// ---- the screen
let awake = null;
function tell(id, on) {
  const line = document.getElementById(id);
  line.hidden = false;
  line.textContent = on ? line.dataset.on : line.dataset.off;
}
async function stay() {
  if (!navigator.wakeLock) return tell("awake", false);
  if (document.visibilityState !== "visible" || (awake && !awake.released)) return;
  try {
    awake = await navigator.wakeLock.request("screen");
    tell("awake", true);
  } catch {
    tell("awake", false);
  }
}
document.addEventListener("visibilitychange", () => { if (at) stay(); });
if (!navigator.wakeLock) tell("awake", false);

// ---- the link
async function stock() {
  if (!navigator.serviceWorker || !window.caches) return tell("kept", false);
  try {
    await navigator.serviceWorker.register("/cloth-side.js", { scope: "/cloth-side" });
    const { active } = await navigator.serviceWorker.ready;
    await document.fonts.ready;
    const own = performance.getEntriesByType("resource").map((each) => each.name).filter((name) => new URL(name).pathname.startsWith("/static/"));
    const channel = new MessageChannel();
    channel.port1.onmessage = (event) => tell("kept", event.data === true);
    active.postMessage({ page: location.href.split("#")[0], files: own }, [channel.port2]);
  } catch {
    tell("kept", false);
  }
}

document.getElementById("ways").hidden = false;
document.getElementById("left").hidden = false;
body.classList.add("live");
mark();
show(false);
stock();
