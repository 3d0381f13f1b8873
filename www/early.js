// Runs before anything is painted, so it is small and waits for nothing.
//
// <html data-state="held">   the address names a piece, or another pack is open: hide the first question until what was
//                            meant is there
// <html data-state="stopped"> the program cannot start: show #trouble instead
// <html data-theme="...">    the theme that was chosen, if one was
(() => {
  const page = document.documentElement;
  const held = () => { page.dataset.state = "held"; };
  if (location.hash.length > 1 || /[?&]pack=/.test(location.search)) held();
  try {
    if (localStorage.getItem("pressmark.pack")) held();
    const theme = localStorage.getItem("pressmark.theme");
    if (theme && /^[a-z]{1,12}$/.test(theme)) page.dataset.theme = theme;
  } catch {
    // Storage is refused here: the theme of the system it is.
  }
  // Who may change what is kept on this device, one after the other in all windows (Web Locks, W3C): a promise of the function
  // that ends the turn. Without locks there is no waiting.
  globalThis.pressmarkTurn = () => new Promise((come) => {
    const asked = navigator.locks?.request("pressmark-store", () => new Promise(come));
    if (asked) asked.catch(() => come());
    else come();
  });
  const stop = () => { page.dataset.state = "stopped"; };
  // A browser too old for modules runs no more of the program than this.
  if (!("noModule" in HTMLScriptElement.prototype)) stop();
  addEventListener("error", (event) => { if (event.target && event.target.id === "boot") stop(); }, true);
})();
