import { swingSpec, type SwingSpec } from "../media/spec";

export interface DemoFilm {
  readonly player: string;
  readonly coach: string;
  readonly daysAgo: number;
  readonly spec: SwingSpec;
  /** A coach has set the events and placed the points: beside the events, or on every frame from the stance on. */
  readonly marked: "no" | "at-events" | "every-frame";
  /** The file is a mirror image, as front cameras make it. */
  readonly isMirrored: boolean;
  /** The film of the same swing by its first camera, when this is another one. */
  readonly otherCameraOf: SwingSpec | null;
  /** The player sent it, with these words; answered when the coach has said something to it. */
  readonly sent: { readonly words: string; readonly answer: string | null } | null;
}

/** A smaller picture for the tests; the motion and its truth are the same. */
export type FilmSize = "usual" | "small";

type Parts = NonNullable<Parameters<typeof swingSpec>[0]>;
interface Further extends Partial<Pick<DemoFilm, "marked" | "isMirrored" | "sent">> {
  readonly otherCameraOf?: Parts;
}
const film = (player: string, coach: string, daysAgo: number, parts: Parts, further: Further = {}) => ({ player, coach, daysAgo, parts, marked: "at-events" as const, isMirrored: false, sent: null, ...further });
const UNMARKED = { marked: "no" } as const;

/** One hitter with three swings of two weeks: two taken alike, and one off a toss. */
const NOOR = { side: "right", body: "teen", seed: 111, look: { scene: "cage", clothes: "sand" } } as const;

/** One hitter of both sides with a point on every frame: the plain clip, its mirrored twin, one off its line, and a second camera. */
const PELL = { side: "right", body: "child", seed: 131, look: { clothes: "sand", scene: "field" }, faults: { "front-leg-soft": 0.8, "hands-drift-forward": 0.6 } } as const;

const FILMS = [
  // The first two are there when the house opens.
  film("ines", "marlow", 0, { side: "right", body: "child", seed: 11, look: { clothes: "navy", scene: "field" }, faults: { "back-foot-overspin": 0.9, "front-shoulder-opens": 0.8, "front-leg-soft": 0.7 } }),
  film("tobin", "marlow", 0, { side: "left", body: "child", seed: 23, look: { clothes: "forest", scene: "cage" }, faults: { "lunge-forward": 0.9, "hands-drift-forward": 0.7 } }),
  film("ines", "marlow", 21, { side: "right", body: "child", seed: 11, look: { clothes: "navy", scene: "field" }, faults: { "back-foot-overspin": 1, "front-shoulder-opens": 1, "front-leg-soft": 0.9, "trunk-fold": 0.6 } }),
  film("ines", "marlow", 0, { side: "right", view: "rear", body: "child", seed: 11, look: { clothes: "navy", scene: "field" }, faults: { "back-foot-overspin": 0.9, "front-shoulder-opens": 0.8 } }, { ...UNMARKED, sent: { words: "Does my foot still go first?", answer: null } }),
  film("ines", "marlow", 5, { side: "left", body: "child", seed: 11, look: { clothes: "navy", scene: "field" }, faults: { "casting": 0.5 } }),
  film("dell", "marlow", 14, { side: "right", body: "teen", seed: 31, look: { scene: "cage", clothes: "maroon" }, faults: { "lean-back": 0.8, "stuck-on-back-leg": 0.9 } }),
  film("dell", "marlow", 14, { side: "right", view: "front", body: "teen", seed: 31, framesPerSecond: 120, look: { scene: "cage", clothes: "maroon" }, faults: { "lean-back": 0.8 } }, UNMARKED),
  film("bea", "marlow", 7, { side: "right", body: "child", seed: 41, look: { scene: "field", clothes: "sky" }, faults: { "no-back-hip-load": 0.9, "barrel-drag": 0.6 } }),
  film("rafa", "marlow", 30, { side: "left", body: "adult", seed: 51, look: { scene: "cage", clothes: "slate" }, faults: { "late-start": 0.8, "casting": 0.6 } }),
  film("rafa", "marlow", 2, { side: "left", body: "adult", seed: 51, task: "toss", framesPerSecond: 120, look: { scene: "cage", clothes: "slate" }, faults: { "late-start": 0.5 } }, { sent: { words: "Am I early enough here?", answer: "Yes. Here your foot is down before the ball is halfway. Keep that rhythm." } }),
  film("juno", "vesna", 3, { side: "left", body: "teen", seed: 61, look: { scene: "field", clothes: "sand" }, faults: { "lead-arm-bar": 0.9 } }),
  film("oskar", "vesna", 9, { side: "right", body: "adult", seed: 71, look: { scene: "cage", clothes: "navy" }, faults: { "trunk-fold": 0.9, "front-leg-soft": 0.8 } }),
  // A grown hitter of both sides; both are kept as models.
  film("brannick", "adair", 40, { side: "right", body: "adult", seed: 151, look: { clothes: "slate", scene: "field" } }),
  film("wren", "marlow", 1, { side: "right", body: "child", seed: 81, framesPerSecond: 60, look: { scene: "cage", clothes: "maroon" }, faults: { "barrel-drag": 0.9, "back-elbow-no-load": 0.8 } }),
  film("milo", "marlow", 12, { side: "right", body: "child", seed: 91, look: { scene: "field", clothes: "forest" }, faults: { "front-shoulder-opens": 0.6 } }),
  film("tamsin", "ottoline", 4, { side: "right", body: "teen", seed: 101, task: "toss", look: { scene: "field", clothes: "sky" }, faults: { "hands-drift-forward": 0.6 } }),
  film("noor", "ottoline", 18, { ...NOOR, faults: { "stuck-on-back-leg": 0.8 } }),
  film("pell", "vesna", 6, PELL, { marked: "every-frame" }),
  film("pell", "vesna", 6, { ...PELL, view: "rear" }, { otherCameraOf: PELL }),
  film("pell", "vesna", 6, { ...PELL, side: "left" }, { marked: "every-frame", isMirrored: true }),
  film("pell", "vesna", 8, { ...PELL, cameraOffDeg: 10 }, { marked: "every-frame" }),
  film("noor", "ottoline", 4, { ...NOOR, faults: { "stuck-on-back-leg": 0.5, "front-leg-soft": 0.7 } }),
  film("noor", "ottoline", 11, { ...NOOR, task: "toss", faults: { "stuck-on-back-leg": 0.7 } }),
  film("brannick", "adair", 40, { side: "left", body: "adult", seed: 151, look: { clothes: "slate", scene: "field" } }),
];

/** How many are drawn before the doors open; the rest follow while the house is in use. */
const FIRST_FILMS = 2;
/**
 * What the tests visit: a side with a sent plan, one with a draft, four that nobody has looked at, one without a focus, Tamsin's for
 * points, Pell's four, Noor's three and two models.
 */
const FOR_TESTS = [0, 1, 4, 5, 8, 12, 13, 14, 15, 16, 17, 18, 19, 20, 21, 22, 23];
const SMALL = { widthPx: 640, heightPx: 360, seconds: 1.7 } as const;

export function demoFilms(size: FilmSize): { first: DemoFilm[]; rest: DemoFilm[] } {
  const made = (more: Parts) => ({ parts, otherCameraOf, ...rest }: (typeof FILMS)[number]): DemoFilm => ({
    ...rest, spec: swingSpec({ ...parts, ...more }), otherCameraOf: otherCameraOf ? swingSpec({ ...otherCameraOf, ...more }) : null,
  });
  if (size === "small") return { first: FILMS.filter((_, index) => FOR_TESTS.includes(index)).map(made(SMALL)), rest: [] };
  const films = FILMS.map(made({}));
  return { first: films.slice(0, FIRST_FILMS), rest: films.slice(FIRST_FILMS) };
}
