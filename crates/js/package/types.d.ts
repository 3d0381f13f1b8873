/** What is thrown when something is refused. `message` is a sentence for people, `code` is for programs. */
export interface PressmarkError extends Error {
  readonly name: "PressmarkError";
  /** `pack`: bytes of a pack; `tables`: bytes of tables, or none; `answer`: an answer; `unknown`: a name that the pack does not have. */
  readonly code: "pack" | "tables" | "answer" | "unknown";
}
export interface Named { id: string; name: string }
export interface About {
  id: string; name: string; edition: string; licence: string; language: string; notice: string;
  kinds: Named[]; places: Named[]; questions: Question[];
}
export interface Question {
  id: string; ask: string; look: string;
  /** A question of `length` takes `64 mm` or `2 5/8 in`, one of `heft` takes `120 g`; each takes its choices too. */
  answer: "choice" | "length" | "heft";
  choices: Choice[];
}
export interface Choice { id: string; label: string; /** Words for `Pack.drawing`; may be empty. */ draw: string }
export interface Finding {
  title: string; likely: string; /** Per mille. */ share: number; purpose: string; madeAs: string; make: string;
  outside: string | null; /** Must be shown when it is not empty. */ notice: string;
  /** Warnings: show these above everything. */ grave: string[]; cautions: string[];
  years: Years; worth: Worth | null; worthMissing: string | null; next: Next | null; standing: string;
  clues: Clue[]; change: string[]; kinds: Fits[]; roles: Fits[]; notes: string[]; sources: string[]; draw: string;
}
export interface Years { half: string; nine: string; /** EDTF, ISO 8601-2. */ edtf: string }
/** Price evidence, never an appraisal. */
export interface Worth { half: string; eight: string; currency: string; basis: string }
export interface Next { question: string; ask: string; why: string }
export interface Clue {
  question: string | null; text: string;
  /** Hundredths of powers of ten for the first kind against the second. */
  strength: number; words: string; basis: string; unsure: boolean; again: string | null;
}
export interface Fits { name: string; chance: string }
export interface Lettering { marks: Mark[]; unread: string[]; clashes: string[]; years: string }
export interface Mark { text: string; readings: Reading[] }
export interface Reading { title: string; likely: string; years: string }
export interface Drawing { width: number; height: number; alt: string; /** The hindmost first. */ paths: DrawnPath[] }
export interface DrawnPath {
  /** Path data as SVG has it. */ d: string;
  look: "body" | "line" | "thin" | "asked" | "asked-thin" | "asked-body" | "hole" | "day" | "yellow" | "brown";
}
