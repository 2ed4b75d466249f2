import type { PictureScale } from "@/lib/measure/body/stature-scale";

/** Two scales of one picture beside each other. */
export interface ScaleAgreement {
  /** First over second. */
  readonly ratio: number;
  /** SD of the ratio. */
  readonly ratioSd: number;
  /** A sentence when they lie further apart than both allow; null = they agree. */
  readonly warning: string | null;
  /** Both together, weighted by their doubt; null when they do not agree: then neither is to be trusted alone. */
  readonly scale: PictureScale | null;
}

/** Scales without an allowance of their own may differ by this share: points placed by hand. Judgement. */
const LEAST_LIMIT = 0.03;

/** Whether two lengths tell the same scale: they disagree when they lie further apart than the wider of their allowances. */
export function scaleAgreement(first: PictureScale, second: PictureScale): ScaleAgreement {
  const ratio = first.pixelsPerM / second.pixelsPerM;
  const ratioSd = ratio * Math.hypot(first.sd / first.pixelsPerM, second.sd / second.pixelsPerM);
  const limit = Math.max(first.limit, second.limit, LEAST_LIMIT);
  const apart = Math.max(ratio, 1 / ratio) - 1;
  if (apart > limit) {
    const percent = Math.round(apart * 100);
    const warning = `The scales from ${first.from} and from ${second.from} lie ${percent} % apart: look at the entered height and at these points`;
    return { ratio, ratioSd, warning, scale: null };
  }
  const weight = (sd: number) => 1 / Math.max(sd, 1e-12) ** 2;
  const [a, b] = [weight(first.sd), weight(second.sd)];
  const pixelsPerM = (a * first.pixelsPerM + b * second.pixelsPerM) / (a + b);
  return { ratio, ratioSd, warning: null, scale: { pixelsPerM, sd: 1 / Math.sqrt(a + b), limit: Math.min(first.limit, second.limit), from: `${first.from} and ${second.from}` } };
}
