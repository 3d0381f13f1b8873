// What is different where all of Pressmark is one file: there is no other page to go to, and nothing to wait for.

/** Words that lead to another page stay as words. */
function cut() {
  for (const link of document.querySelectorAll('#app a[href]:not([href^="#"])')) link.removeAttribute("href");
}
new MutationObserver(cut).observe(document.getElementById("app"), { subtree: true, childList: true, attributeFilter: ["href"] });
cut();

addEventListener("pressmark:usable", () => {
  // It stands further down in this page.
  globalThis.pressmarkPhoto = async () => {};
  dispatchEvent(new CustomEvent("pressmark:offline-ready"));
});

// Where this file lies is nobody's business: of a copied link only the name of the file and the piece are left.
const { clipboard } = navigator;
if (clipboard) {
  const write = clipboard.writeText.bind(clipboard);
  const [own] = location.href.split("#");
  clipboard.writeText = (text) => write(text.replace(own, own.split("/").pop()));
}
