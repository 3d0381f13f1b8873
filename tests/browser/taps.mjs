// How long taps take.

/** Runs in the page: for each tap the time from the finger's event until what it led to has been painted, by screen. */
export function timeTaps() {
  globalThis.taps = [];
  addEventListener("click", (event) => {
    const from = event.timeStamp;
    // The program draws after this event; a frame after the next one that was asked for has been painted.
    requestAnimationFrame(() => {
      const channel = new MessageChannel();
      channel.port1.onmessage = () => {
        const screen = document.querySelector(".rows") ? "finding" : "question";
        globalThis.taps.push({ screen, took: performance.now() - from });
      };
      channel.port2.postMessage("");
    });
  }, { capture: true });
}
