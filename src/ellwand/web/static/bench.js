// The live bench: whatever is chosen is drawn again at once; without this script the form does the same by itself.

const form = document.getElementById("form");
const said = document.getElementById("said");
let asked = 0;
let shown = new Map();
let open = document.getElementById("work").dataset.open;

/** The form as an address; what is empty is left out. */
function query() {
  const out = new URLSearchParams();
  for (const [name, value] of new FormData(form)) if (value !== "") out.append(name, value);
  return out.toString();
}

/** Puts a part of the page in place, with what is open and in focus left as it was. */
function put(name, html) {
  if (shown.get(name) === html) return;
  shown.set(name, html);
  const part = document.getElementById(`part-${name}`);
  const focus = part.contains(document.activeElement) ? document.activeElement : null;
  const at = focus && { id: focus.id, name: focus.name, zone: focus.dataset.zone, from: focus.selectionStart, to: focus.selectionEnd };
  const opened = new Set([...part.querySelectorAll("details[open][data-keep]")].map((each) => each.dataset.keep));
  // what is written but not sent yet stays, the choices themselves aside
  const written = name === "choices" ? [] : [...part.querySelectorAll("input[id]")].filter((each) => each.value !== each.defaultValue);
  part.innerHTML = html;
  for (const each of written) if (document.getElementById(each.id)) document.getElementById(each.id).value = each.value;
  for (const each of part.querySelectorAll("details[data-keep]")) if (opened.has(each.dataset.keep)) each.open = true;
  if (!at) return;
  const again = (at.id && document.getElementById(at.id)) ||
    (at.name && part.querySelector(`[name="${CSS.escape(at.name)}"]`)) ||
    (at.zone && part.querySelector(`a[data-zone="${CSS.escape(at.zone)}"]`));
  if (!again) return;
  again.focus({ preventScroll: true });
  if (typeof at.from === "number" && again.setSelectionRange) again.setSelectionRange(at.from, at.to);
}

/** Asks for the parts that a change touches, and shows them unless another change came after it. */
async function redraw(address, push) {
  const turn = ++asked;
  const answer = await fetch(`/parts?${address}&open=${open}`, { headers: { Accept: "application/json" } }).catch(() => null);
  if (turn !== asked) return;
  if (!answer || !answer.ok) {
    said.textContent = form.dataset.lost;
    return;
  }
  const news = await answer.json();
  if (turn !== asked) return;
  for (const [name, html] of Object.entries(news.parts)) put(name, html);
  choose(open, false);
  said.textContent = news.said;
  const there = news.query ? `/?${news.query}` : "/";
  if (push && there !== location.pathname + location.search) history.pushState(null, "", there);
  if (news.trouble) return;
  await follow(news.query, turn);
  if (turn === asked) lay(news.query, turn);
}

/** The pieces, the order of work and the papers: they may come a moment after the drawing. */
async function follow(address, turn) {
  const answer = await fetch(`/more?${address}`).catch(() => null);
  if (!answer || !answer.ok || turn !== asked) return;
  for (const [name, html] of Object.entries((await answer.json()).parts)) put(name, html);
}

/** Lays the pieces on the cloth, at once and then better. */
async function lay(address, turn) {
  search.end();
  const answer = await fetch(`/lay?${address}`).catch(() => null);
  if (!answer || !answer.ok || turn !== asked) return;
  const { cloth, laid } = await answer.json();
  put("cloth", cloth);
  search.of(laid ? address : null);
}

/** The search for a better lay: goes on while the maker looks, and ends when told. */
const search = {
  line: document.getElementById("stream"),
  words: document.querySelector("#stream span"),
  enough: document.getElementById("enough"),
  further: document.getElementById("further"),
  address: null,
  source: null,
  timer: 0,

  /** Takes up the search for another garment once nothing has changed for a moment. */
  of(address) {
    this.end();
    this.address = address;
    this.line.hidden = address === null;
    if (address !== null) this.timer = setTimeout(() => this.begin(), 1200);
    this.show("", false);
  },

  begin() {
    if (document.hidden || this.address === null) return;
    this.show(this.line.dataset.looking, true);
    const source = (this.source = new EventSource(`/lay/events?${this.address}`));
    source.addEventListener("said", (event) => this.show(JSON.parse(event.data), true));
    source.addEventListener("lay", (event) => put("cloth", JSON.parse(event.data)));
    source.addEventListener("done", () => this.over(this.line.dataset.best));
    source.addEventListener("failed", (event) => this.over(JSON.parse(event.data)));
  },

  show(text, busy) {
    this.words.textContent = text;
    this.enough.hidden = !busy;
    this.further.hidden = busy || text === "";
  },

  /** It has come to its end: that alone is told to who listens. */
  over(text) {
    this.end();
    this.show(text, false);
    this.further.hidden = text === this.line.dataset.best;
    said.textContent = text;
  },

  end() {
    clearTimeout(this.timer);
    this.source?.close();
    this.source = null;
  },

  async stop() {
    this.end();
    await fetch(`/lay/stop?${this.address}`, { method: "POST" }).catch(() => null);
    this.over(this.line.dataset.stopped);
    this.further.focus();
  },
};

search.enough.addEventListener("click", () => search.stop());
search.further.addEventListener("click", () => {
  search.begin();
  search.enough.focus();
});
document.addEventListener("visibilitychange", () => {
  if (document.hidden) search.end();
  else if (search.address !== null && !search.enough.hidden) search.begin();
});

/** Opens the choices of a place. */
function choose(zone, move) {
  const section = document.getElementById(`z-${zone}`);
  if (!section) return;
  open = zone;
  for (const each of document.querySelectorAll(".choices > section")) each.classList.toggle("open", each === section);
  document.querySelector(".choices").classList.add("chosen");
  for (const each of document.querySelectorAll("a[data-zone]")) {
    if (each.dataset.zone === zone) each.setAttribute("aria-current", "true");
    else each.removeAttribute("aria-current");
  }
  if (move) section.querySelector("select, input, a, button")?.focus();
}

document.addEventListener("click", (event) => {
  const zone = event.target.closest("a[data-zone]");
  if (zone) {
    event.preventDefault();
    choose(zone.dataset.zone, true);
    return;
  }
  const mend = event.target.closest("a.mend");
  if (mend) {
    event.preventDefault();
    redraw(new URL(mend.href).search.slice(1), true);
  }
});

form.addEventListener("change", (event) => {
  if (event.target.name === "shelf") return;
  const own = event.target.name?.endsWith(".own") && event.target.value;
  if (own) form.elements[event.target.name.slice(0, -4)].value = "own";
  if (event.target.value === "own" && !event.target.name.endsWith(".own")) {
    const field = form.elements[`${event.target.name}.own`];
    if (!field.value) {
      field.focus();
      return;
    }
  }
  redraw(query(), true);
});

form.addEventListener("submit", (event) => {
  const button = event.submitter;
  if (button?.hasAttribute("formaction")) return;
  event.preventDefault();
  const extra = button?.name ? `&${new URLSearchParams({ [button.name]: button.value })}` : "";
  redraw(query() + extra, true);
});

// what is kept is what is chosen now, whether it is drawn yet or not
document.addEventListener("submit", (event) => {
  if (event.target.id === "keep") event.target.elements.query.value = query();
});

document.addEventListener("change", (event) => {
  if (event.target.closest("#whose")) event.target.form.requestSubmit();
});

window.addEventListener("popstate", () => redraw(location.search.slice(1), false));

for (const part of document.querySelectorAll("[id^=part-]")) shown.set(part.id.slice(5), null);
if (location.hash.startsWith("#z-")) {
  choose(location.hash.slice(3), false);
  // beside the drawing the choices are seen anyway
  if (matchMedia("(min-width: 64rem)").matches) {
    history.replaceState(null, "", location.pathname + location.search);
    addEventListener("load", () => requestAnimationFrame(() => scrollTo(0, 0)));
  }
} else choose(open, false);
lay(location.search.slice(1), asked);
