import { cloudNoise, ramp, valueNoise } from "./noise";

export type Rgb = [number, number, number];

/** Mixes the second colour into the first, in place. */
export function blend(into: Rgb, colour: readonly [number, number, number], share: number): void {
  for (let i = 0; i < 3; i++) into[i] = (into[i] as number) * (1 - share) + (colour[i] as number) * share;
}

/** Cover of a stroke of half width `half` at distance `d` from its middle, softened over `soft`. */
const stroke = (d: number, half: number, soft: number): number => 1 - ramp(half - soft, half + soft, Math.abs(d));

/** Distance outside (+) or inside (-) of home plate; x toward the pitcher from its front edge, z from its middle. Metres. */
function plateDistance(x: number, z: number): number {
  const half = 0.216;
  const side = Math.abs(z) - half;
  const point = (-x - 0.216 + Math.abs(z) - 0.216) * Math.SQRT1_2;
  return Math.max(x, side, point);
}

/** Sizes of the ground that follow the hitter. */
export interface GroundPlan {
  readonly plateZ: number;
  /** The plate's front edge. */
  readonly plateX: number;
  readonly scene: "cage" | "field";
  readonly seed: number;
}

const CHALK = [232, 230, 222] as const;

/** Colour of the ground (sRGB) at a place; `soft` is half the width in metres that a pixel covers there. */
export function groundColour(plan: GroundPlan, x: number, z: number, soft: number): Rgb {
  const { plateX, plateZ, seed } = plan;
  const isField = plan.scene === "field";
  const coarse = cloudNoise(x * 0.9, z * 0.9, seed + 7, 3);
  const grain = Math.max(0, 1 - soft / 0.02) * (valueNoise(x * 70, z * 70, seed + 3) - 0.5);
  const out: Rgb = isField ? [112, 140, 92] : [84, 116, 92];
  if (isField) {
    const mown = Math.floor((x + z * 0.35) / 2.2) % 2 === 0 ? 5 : -5;
    blend(out, [88 + mown, 122 + mown, 76 + mown], 0.4 + 0.3 * coarse);
  }
  const blades = valueNoise(x * 24, z * 11, seed + 11) - 0.5;
  for (let i = 0; i < 3; i++) out[i] = (out[i] as number) * (1 + 0.14 * (coarse - 0.5) + 0.05 * blades + 0.05 * grain);
  const cx = x - (plateX - 0.3);
  const cz = z - plateZ;
  const wobble = isField ? 0.22 * (cloudNoise(x * 1.3, z * 1.3, seed + 17, 3) - 0.5) : 0;
  const edge = isField ? Math.hypot(cx, cz) - 3.4 + wobble : Math.max(Math.abs(cx) - 2.6, Math.abs(cz) - 2.15);
  const dirt: Rgb = isField ? [178, 142, 110] : [146, 120, 100];
  const scuffs = cloudNoise(x * 4, z * 4, seed + 29, 4) - 0.5;
  for (let i = 0; i < 3; i++) dirt[i] = (dirt[i] as number) * (1 + 0.16 * (coarse - 0.5) + 0.14 * scuffs + 0.09 * grain);
  blend(out, dirt, 1 - ramp(-0.02 - soft, 0.02 + soft, edge));
  for (const sign of [-1, 1]) {
    const bx = Math.abs(x - (plateX - 0.216)) - 0.914;
    const inner = plateZ + sign * (0.216 + 0.152);
    const across = sign * (z - inner);
    const outside = Math.max(bx, -across, across - 1.22);
    const chalk = stroke(outside, 0.028, Math.max(0.006, soft)) * (0.86 + 0.5 * scuffs - 0.18 * coarse);
    blend(out, CHALK, Math.max(0, Math.min(0.92, chalk)));
  }
  const plate = plateDistance(x - plateX, z - plateZ);
  blend(out, [104, 88, 76], (1 - ramp(0, 0.03 + soft, plate)) * 0.5);
  blend(out, [240, 238, 232], 1 - ramp(-soft, soft, plate));
  return out;
}
