// Looks every two seconds how far the work is; without this script the page loads itself again.

const main = document.getElementById("main");

async function look() {
  const answer = await fetch(location.href).catch(() => null);
  if (!answer?.ok) return setTimeout(look, 4000);
  const now = new DOMParser().parseFromString(await answer.text(), "text/html");
  const line = document.getElementById("under-way");
  const news = now.getElementById("under-way");
  if (news) {
    if (line.textContent !== news.textContent) line.textContent = news.textContent;
    return setTimeout(look, 2000);
  }
  const held = main.contains(document.activeElement);
  main.replaceChildren(...now.getElementById("main").childNodes);
  if (held) main.focus();
  document.getElementById("said").textContent = main.querySelector("[role=status], [role=alert], h1")?.textContent ?? "";
}
setTimeout(look, 1000);
