import type { RepeatedReading } from "@/lib/measure/several/repeated-reading";

type FromSetUp = Pick<RepeatedReading, "setUp" | "sdCamera">;

/**
 * SD that the camera's angle adds to the difference of two sets' means, in the unit. What a set-up adds is the same for
 * all its swings: filmed before and after from one set-up it falls out, from two it is carried whole, and a set-up that
 * stands in both sets counts with the difference of its shares. Swings of an unknown set-up are taken as one set-up of
 * their set, the widest that can be.
 */
export function cameraPartOfDifference(before: readonly FromSetUp[], after: readonly FromSetUp[]): number {
  const bySetUp = new Map<string, number>();
  const add = (set: readonly FromSetUp[], name: string, sign: 1 | -1) => {
    for (const { setUp, sdCamera } of set) {
      const key = setUp === null ? `unknown ${name}` : `known ${setUp}`;
      bySetUp.set(key, (bySetUp.get(key) ?? 0) + (sign * (Number.isFinite(sdCamera) ? sdCamera : 0)) / set.length);
    }
  };
  add(before, "before", -1);
  add(after, "after", 1);
  return Math.sqrt([...bySetUp.values()].reduce((sum, part) => sum + part ** 2, 0));
}
