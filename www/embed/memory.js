// For pages that keep nothing on the device: the frame inside another site's page, and the edition of one file. Runs before
// all else.
//
// What the programs put into the browser's storage is held for as long as the page stands, and the storage itself is out of
// their reach, whether the browser would give it or not. A theme may come with the address. With data-outside on its tag the page is
// made to stand inside another: opened by itself it leads to that address.
(() => {
  const { outside } = document.currentScript.dataset;
  if (outside && window.top === window) {
    location.replace(outside + location.search + location.hash);
    return;
  }
  const kept = new Map();
  const memory = {
    getItem: (name) => kept.get(String(name)) ?? null,
    setItem(name, text) {
      kept.set(String(name), String(text));
      dispatchEvent(new Event("pressmark:chosen"));
    },
  };
  const put = (name, value) => Object.defineProperty(globalThis, name, { value });
  put("localStorage", memory);
  for (const name of ["sessionStorage", "indexedDB", "caches"]) put(name, undefined);
  const theme = new URLSearchParams(location.search).get("theme");
  if (["light", "dark", "sun"].includes(theme)) {
    kept.set("pressmark.theme", theme);
    kept.set("pressmark.preferences", `theme=${theme}`);
  }
})();
