import type { WindowTrack } from "@/lib/measure/window-read";

/** The angle at the second place between the others on a sample, degrees 0 to 180; NaN when one is missing or they coincide. */
export function angleAt(a: WindowTrack, b: WindowTrack, c: WindowTrack, i: number): number {
  const bh = b.h[i] ?? NaN;
  const bv = b.v[i] ?? NaN;
  const ah = (a.h[i] ?? NaN) - bh;
  const av = (a.v[i] ?? NaN) - bv;
  const ch = (c.h[i] ?? NaN) - bh;
  const cv = (c.v[i] ?? NaN) - bv;
  const across = Math.abs(ah * cv - av * ch);
  const along = ah * ch + av * cv;
  return across === 0 && along === 0 ? NaN : (Math.atan2(across, along) * 180) / Math.PI;
}
