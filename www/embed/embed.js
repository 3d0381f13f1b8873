// Puts Pressmark into a page of another site: a key first, and the frame with the assistant once it is pressed.
//
//   <script src="https://club.example/pressmark/embed.js" async></script>
//   <pressmark-embed><a href="https://club.example/pressmark/">What is this small iron?</a></pressmark-embed>
//
// Attributes, all of them optional:
//   label   the words on the key
//   start   tap (as it is without), near (once it is scrolled near), now
//   theme   light, dark or sun; without it that of the reader's phone, or what --pressmark-paper asks for
//   height  of the frame in CSS pixels, 320 to 2000; 680 without it
//   pack    a pack beside the assistant, by an address relative to it
//   piece   a piece to begin with: what stands behind the # of its link
// Colours as custom properties of the element: --pressmark-ink, -paper, -card, -accent, -line. The frame wears them when they
// can be read, or says on the console why not.
// Events, which bubble: pressmark-ready; pressmark-finding with { kind, odds, years: { from, to }, link } as detail, the odds per
// mille and no sharper than the words on the screen, the years those of 9 in 10; pressmark-error with { says }.
//
// The frame and this script speak over a port of their own. Only the frame that stands here, and only while it shows a page
// of the place that this script came from, is handed the other end. Messages are short texts of JSON, checked field by field
// in www/embed/frame.js and here; whatever else comes is dropped.
(() => {
  const NAME = "pressmark-embed";
  const COLOURS = ["ink", "paper", "card", "accent", "line"];
  /** Characters of a message, those acted upon in a second, milliseconds until a silent frame is spoken of. */
  const LONGEST = 2000;
  const MOST = 20;
  const PATIENCE = 15_000;
  /** What may stand behind the # of a link. */
  const PIECE = /^[\w.~/+,:;=?@!$&*'()%-]{1,1500}$/;
  const SILENT = "Pressmark does not answer. This page or the browser may block it, or there is no connection.";
  const CANVAS = `
:host { display: block; max-width: 46rem; }
:host([hidden]), [hidden] { display: none; }
button { box-sizing: border-box; width: 100%; min-height: 56px; padding: 10px 16px; font: inherit; font-weight: 650; color: inherit;
  background: none; border: 2px solid; border-radius: 10px; cursor: pointer; }
p { margin: 6px 0; font-size: .9em; }
iframe { box-sizing: border-box; display: block; width: 100%; max-height: max(20rem, 94vh); border: 1px solid; border-radius: 10px; }`;

  const script = document.currentScript ?? document.querySelector('script[src*="embed.js"]');
  const taken = customElements.get(NAME);
  if (taken) {
    // Pasted twice it is the same; something else keeps its name, and the link inside the tag its place.
    if (!taken.pressmark) console.warn(`Something else on this page is called <${NAME}>, so Pressmark stays outside.`);
    return;
  }
  if (!script?.src) {
    console.warn("Pressmark does not know where it came from: paste its line with the address as it stands.");
    return;
  }
  const APP = new URL("./", script.src);

  /** A message as an object with a type, or nothing. */
  function read(data) {
    if (typeof data !== "string" || data.length > LONGEST) return undefined;
    try {
      const said = JSON.parse(data);
      return said?.pressmark === 1 && typeof said.type === "string" ? said : undefined;
    } catch {
      return undefined;
    }
  }

  /** Text that may stand on the host's page, as text: no signs that steer what stands around it. */
  const words = (text, longest) =>
    typeof text === "string" && text.length > 0 && text.length <= longest && !/[\p{Cc}\p{Cf}<>]/u.test(text);
  const whole = (number, least, most) => Number.isInteger(number) && number >= least && number <= most;

  /** True for the first few of each second. */
  function bound() {
    let since = -1000;
    let count = 0;
    return () => {
      const now = performance.now();
      if (now - since > 1000) [since, count] = [now, 0];
      count += 1;
      return count <= MOST;
    };
  }

  const element = (name, properties) => Object.assign(document.createElement(name), properties);

  class Embed extends HTMLElement {
    static pressmark = 1;

    static observedAttributes = ["theme", "height", "label"];

    #allowed = bound();

    #port;

    #frame;

    #waits;

    #heard = (event) => this.#hear(event);

    #again = () => this.#wear();

    connectedCallback() {
      addEventListener("message", this.#heard);
      document.addEventListener("securitypolicyviolation", this.#heard);
      this.#dark.addEventListener("change", this.#again);
      if (!this.shadowRoot) this.#build();
      this.#begin(this.getAttribute("start"));
    }

    disconnectedCallback() {
      removeEventListener("message", this.#heard);
      document.removeEventListener("securitypolicyviolation", this.#heard);
      this.#dark.removeEventListener("change", this.#again);
      clearTimeout(this.#waits);
      this.#port?.close();
      this.#port = undefined;
    }

    attributeChangedCallback(name) {
      if (!this.shadowRoot) return;
      this.#dress();
      if (name === "theme") this.#wear();
    }

    #dark = matchMedia("(prefers-color-scheme: dark)");

    #key = element("button", { type: "button" });

    #note = element("p", { textContent: "It runs in your browser. This page is told the finding and the answers that led to it. Nobody else is told anything." });

    #state = element("p", { role: "status" });

    #inside = element("slot", { hidden: true });

    #build() {
      const root = this.attachShadow({ mode: "open" });
      try {
        const sheet = new CSSStyleSheet();
        sheet.replaceSync(CANVAS);
        root.adoptedStyleSheets = [sheet];
      } catch {
        // Plainer, but all of it is there.
      }
      this.#key.addEventListener("click", () => {
        this.#open();
        this.#frame.focus();
      });
      this.#dress();
      root.append(this.#key, this.#note, this.#state, this.#inside);
    }

    #begin(start) {
      if (this.#frame) this.#wait();
      else if (start === "now") this.#open();
      else if (start === "near" && "IntersectionObserver" in window) {
        const eye = new IntersectionObserver(([seen]) => {
          if (!seen.isIntersecting) return;
          eye.disconnect();
          if (!this.#frame) this.#open();
        }, { rootMargin: "400px" });
        eye.observe(this);
      }
    }

    #dress() {
      this.#key.textContent = this.getAttribute("label") || "Start: what is this small iron?";
      const height = Number(this.getAttribute("height"));
      if (this.#frame) this.#frame.style.height = `${whole(height, 320, 2000) ? height : 680}px`;
    }

    #open() {
      const address = new URL("frame.html", APP);
      for (const name of ["theme", "pack"]) {
        const value = this.getAttribute(name);
        if (value) address.searchParams.set(name, value);
      }
      address.hash = this.getAttribute("piece") ?? "";
      this.#frame = element("iframe", {
        src: address.href, title: `Pressmark: ${this.#key.textContent}`, referrerPolicy: "no-referrer", allow: "clipboard-write",
      });
      // On its own site the frame is as trusted as this script, and a sandbox would be none.
      if (APP.origin !== location.origin) {
        this.#frame.sandbox = "allow-scripts allow-same-origin allow-popups allow-popups-to-escape-sandbox allow-downloads allow-modals";
      }
      this.#key.hidden = this.#note.hidden = true;
      this.#dress();
      this.shadowRoot.append(this.#frame);
      this.#wait();
    }

    #wait() {
      this.#state.textContent = "Opening\u2026";
      clearTimeout(this.#waits);
      this.#waits = setTimeout(() => this.#silent(), PATIENCE);
    }

    /** What stands inside the tag is shown in its place. A frame that answers late takes it back. */
    #silent() {
      this.#state.textContent = SILENT;
      this.#show(false);
      this.#tell("error", { says: SILENT });
    }

    #show(frame) {
      this.#frame.hidden = !frame;
      this.#inside.hidden = frame;
    }

    #tell(name, detail) {
      this.dispatchEvent(new CustomEvent(`pressmark-${name}`, { detail, bubbles: true, composed: true }));
    }

    #hear(event) {
      const frame = this.#frame;
      if (!frame) return;
      if (event.type !== "message") {
        if (event.effectiveDirective === "frame-src" && event.blockedURI.startsWith(APP.origin)) this.#silent();
        return;
      }
      // In a page without an origin of its own (a sandboxed box for snippets) the frame has none either.
      const apart = self.origin === "null" && event.origin === "null";
      if (event.source !== frame.contentWindow || !(apart || event.origin === APP.origin)) return;
      if (read(event.data)?.type !== "here" || !this.#allowed()) return;
      // Loaded anew it says so again, and is handed a new port.
      this.#port?.close();
      const { port1, port2 } = new MessageChannel();
      this.#port = port1;
      port1.onmessage = ({ data }) => {
        if (port1 === this.#port) this.#told(read(data) ?? {});
      };
      frame.contentWindow.postMessage(this.#look("hello"), apart ? "*" : APP.origin, [port2]);
      clearTimeout(this.#waits);
      this.#state.textContent = "";
      this.#show(true);
    }

    /** What is right is told on, and of that so much a second. */
    #told({ type, kind, odds, from, to, piece, says }) {
      const right = {
        ready: () => true,
        error: () => words(says, 400),
        finding: () => words(kind, 100) && whole(odds, 0, 1000) && whole(from, 0, 9999) && whole(to, from, 9999)
          && typeof piece === "string" && PIECE.test(piece),
      };
      if (!Object.hasOwn(right, type ?? "") || !right[type]() || !this.#allowed()) return;
      if (type === "ready") this.#tell("ready");
      if (type === "error") this.#tell("error", { says });
      if (type !== "finding") return;
      // Made here: a frame cannot name another place.
      const link = new URL("./", APP);
      const pack = this.getAttribute("pack");
      if (pack) link.searchParams.set("pack", pack);
      link.hash = piece;
      this.#tell("finding", { kind, odds, years: { from, to }, link: link.href });
    }

    /** The theme and the colours as they stand now, as a message. */
    #look(type) {
      const look = { pressmark: 1, type, theme: this.getAttribute("theme") ?? "" };
      const style = getComputedStyle(this);
      for (const name of COLOURS) {
        const said = style.getPropertyValue(`--pressmark-${name}`).trim();
        if (!said) continue;
        // The browser itself makes red, green and blue of any way to write a colour.
        const probe = this.#state.style;
        probe.color = said;
        const parts = getComputedStyle(this.#state).color.match(/^rgb\((\d+), (\d+), (\d+)\)$/);
        if (probe.color && parts) look[name] = `#${parts.slice(1).map((part) => Number(part).toString(16).padStart(2, "0")).join("")}`;
        else console.warn(`--pressmark-${name}: ${said} is no colour that Pressmark can wear: name one without transparency, such as #1a1510.`);
        probe.color = "";
      }
      return JSON.stringify(look);
    }

    #wear() {
      this.#port?.postMessage(this.#look("wear"));
    }
  }

  customElements.define(NAME, Embed);
})();
