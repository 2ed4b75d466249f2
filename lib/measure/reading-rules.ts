/** Noise of one coordinate of one point on one frame, as a standard deviation. */
export interface NoiseModel {
  readonly placed: { readonly T: number; readonly px: number };
  /** In torso lengths, by the point's name without `_f` and `_b`; null = never suggested. */
  readonly suggested: Readonly<Record<string, number | null>>;
}

/** Numbers the academy may edit and that hold for every checkpoint. Lengths in torso lengths or pixels, as named. */
export interface ReadingRules {
  readonly noise: NoiseModel;
  readonly verdict: {
    readonly talkAtLeast: number;
    readonly fineAtLeast: number;
    readonly cannotTellSdOverOkWidth: number;
  };
  readonly size: {
    readonly large: { readonly sdAtLeast: number; readonly widthAtLeast: number };
    readonly clear: { readonly sdAtLeast: number; readonly widthAtLeast: number };
  };
  /** Checkpoints read on a running slap; all others are off there. */
  readonly slap: { readonly on: readonly string[]; readonly ownBaselineOnly: readonly string[]; readonly say: string };
  readonly youthUnderAgeYears: number;
  /** Draws of a folded reading. */
  readonly draws: number;
}

/** The starter library's numbers (conventions `noise`, `youth`; terms `verdictRule`, `sizeRule`; checkpoints `slap`). */
export const STARTER_RULES: ReadingRules = {
  noise: {
    placed: { T: 0.012, px: 1.5 },
    suggested: {
      hip: 0.04, kn: 0.03, an: 0.05, sh: 0.08, el: 0.25, wr: 0.3, heel: 0.07, toe: 0.06, nose: 0.1, ear: 0.06,
      knob: null, tip: null, helmet: null,
    },
  },
  verdict: { talkAtLeast: 0.6, fineAtLeast: 0.6, cannotTellSdOverOkWidth: 0.5 },
  size: { large: { sdAtLeast: 3, widthAtLeast: 0.75 }, clear: { sdAtLeast: 2, widthAtLeast: 0.25 } },
  slap: {
    on: ["barrel-climb-angle", "barrel-below-hands", "face-to-contact"],
    ownBaselineOnly: ["barrel-climb-angle", "barrel-below-hands"],
    say: "running slap: power-swing checks are off",
  },
  youthUnderAgeYears: 13,
  draws: 400,
};

/** Checks edited rules. @throws RangeError that names the number that cannot be */
export function checkRules(rules: ReadingRules): void {
  const share = (name: string, value: number) => {
    if (!(value >= 0 && value <= 1)) throw new RangeError(`${name} must be between 0 and 1, not ${value}`);
  };
  share("verdict.talkAtLeast", rules.verdict.talkAtLeast);
  share("verdict.fineAtLeast", rules.verdict.fineAtLeast);
  if (!(Number.isInteger(rules.draws) && rules.draws >= 200)) throw new RangeError("draws must be a whole number of at least 200");
  if (!(rules.noise.placed.px > 0 && rules.noise.placed.T >= 0)) throw new RangeError("the noise of a placed point must be above 0");
  for (const [name, value] of Object.entries(rules.noise.suggested)) {
    if (value !== null && !(value > 0)) throw new RangeError(`the noise of a suggested ${name} must be above 0 or null`);
  }
}
