import type { WindowTrack } from "@/lib/measure/window-read";

/** The angle at the second place between the others on a sample, degrees 0 to 180; NaN when one is missing or they coincide. */
export function angleAt(a: WindowTrack, b: WindowTrack, c: WindowTrack, i: number): number {
  const [bh, bv] = [b.h[i] ?? NaN, b.v[i] ?? NaN];
  const [ah, av] = [(a.h[i] ?? NaN) - bh, (a.v[i] ?? NaN) - bv];
  const [ch, cv] = [(c.h[i] ?? NaN) - bh, (c.v[i] ?? NaN) - bv];
  const across = Math.abs(ah * cv - av * ch);
  const along = ah * ch + av * cv;
  return across === 0 && along === 0 ? NaN : (Math.atan2(across, along) * 180) / Math.PI;
}
