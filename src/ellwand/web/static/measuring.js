// The tape that is asked for is picked out on the figure; what is unlikely is asked about while one writes.

const form = document.getElementById("measures");
const said = document.getElementById("said");
const figure = document.querySelector(".tapes svg");
let asked = 0;
let timer = 0;

/** Picks out one tape; none where no measurement has the focus. */
function light(field) {
  figure.classList.toggle("lit", Boolean(field));
  for (const each of figure.querySelectorAll(".taped")) each.classList.toggle("on", each.dataset.field === field);
}

/** Asks what there is to say, and puts it beside the fields. */
async function check() {
  const turn = ++asked;
  const answer = await fetch("/people/check", { method: "POST", body: new URLSearchParams(new FormData(form)) }).catch(() => null);
  if (!answer || !answer.ok || turn !== asked) return;
  const news = await answer.json();
  if (turn !== asked) return;
  const typed = [...form.elements].some((each) => each.value && each.name !== "based" && each.name !== "unit" && each.name !== "name");
  for (const [field, html] of Object.entries(news.answers)) {
    const place = document.getElementById(`a-${field}`);
    if (place.contains(document.activeElement)) continue;
    place.innerHTML = typed ? html : "";
    document.getElementById(`m-${field}`).toggleAttribute("aria-invalid", news.wrong === field && typed);
  }
  said.textContent = typed ? news.said : "";
}

form.addEventListener("focusin", (event) => light(event.target.closest(".measure")?.dataset.field));
form.addEventListener("change", () => {
  clearTimeout(timer);
  timer = setTimeout(check, 150);
});
if (form.elements.height.value) check();
