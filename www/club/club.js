// What a club can do with the finding: this page writes it down. Text only, and only into this page.
const list = document.getElementById("findings");

addEventListener("pressmark-finding", ({ detail: { kind, odds, years, link } }) => {
  document.getElementById("none")?.remove();
  const line = document.createElement("li");
  const name = document.createElement("a");
  name.href = link;
  name.textContent = kind;
  line.append(name, `, about ${Math.round(odds / 10)} in 100, ${years.from} to ${years.to}`);
  // The latest finding of a piece says it all.
  for (const old of [...list.children].filter((one) => one.firstChild.textContent === kind)) old.remove();
  list.prepend(line);
  while (list.children.length > 5) list.lastChild.remove();
});
