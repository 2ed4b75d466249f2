import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { ByteBudget, shareOut, type ByteLease } from "./byte-budget";

const wants = fc.array(fc.oneof(fc.integer({ min: 0, max: 1_000_000 }), fc.constant(Infinity)), { maxLength: 6 });
const sum = (numbers: readonly number[]) => numbers.reduce((a, b) => a + b, 0);

describe("sharing out", () => {
  test("the shares never add up to more than there is, and nobody gets more than is wanted", () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 2_000_000 }), wants, (total, wanted) => {
        const shares = shareOut(total, wanted);
        expect(sum(shares)).toBeLessThanOrEqual(total);
        shares.forEach((share, i) => expect(share).toBeLessThanOrEqual(wanted[i] ?? 0));
      }),
    );
  });
  test("who wants more gets no less", () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 2_000_000 }), wants, (total, wanted) => {
        const shares = shareOut(total, wanted);
        wanted.forEach((one, i) => wanted.forEach((other, j) => one >= other && expect((shares[i] ?? 0) + 1).toBeGreaterThanOrEqual(shares[j] ?? 0)));
      }),
    );
  });
  test("when all fits, all get what they want; what one leaves over the others use", () => {
    expect(shareOut(100, [10, 20, 30])).toEqual([10, 20, 30]);
    expect(shareOut(100, [10, Infinity, Infinity])).toEqual([10, 45, 45]);
  });
});

/** A clip that keeps pictures of one size and drops the oldest ones when its share shrinks. */
function clipOn(budget: ByteBudget, pictureBytes: number) {
  let count = 0;
  const lease: ByteLease = budget.lease(() => {
    while (count * pictureBytes > lease.allowedBytes) {
      lease.giveBack(pictureBytes);
      count -= 1;
    }
  });
  return {
    lease,
    fill() {
      while (lease.hold(pictureBytes)) count += 1;
      return count;
    },
  };
}

describe("one budget for all clips", () => {
  test("it is held at every moment while clips come, fill up and leave", () => {
    fc.assert(
      fc.property(fc.array(fc.tuple(fc.constantFrom("open", "fill", "close"), fc.nat(5), fc.integer({ min: 1, max: 300 })), { maxLength: 40 }), (moves) => {
        const budget = new ByteBudget(1000);
        const clips: ReturnType<typeof clipOn>[] = [];
        for (const [move, which, bytes] of moves) {
          if (move === "open" && clips.length < 4) clips.push(clipOn(budget, bytes));
          else if (move === "fill") clips[which]?.fill();
          else clips.splice(which, 1).forEach((clip) => clip.lease.close());
          expect(budget.heldBytes).toBeLessThanOrEqual(1000);
          clips.forEach(({ lease }) => expect(lease.heldBytes).toBeLessThanOrEqual(lease.allowedBytes));
        }
      }),
    );
  });
  test("a second clip takes half of what a full first one held, and the first has it again when the second leaves", () => {
    const budget = new ByteBudget(1000);
    const first = clipOn(budget, 10);
    expect(first.fill()).toBe(100);
    const second = clipOn(budget, 10);
    expect(first.lease.heldBytes).toBe(500);
    expect(second.fill()).toBe(50);
    second.lease.close();
    expect(budget.heldBytes).toBe(500);
    expect(first.fill()).toBe(100);
  });
  test("a clip that is closed holds nothing more", () => {
    const budget = new ByteBudget(1000);
    const { lease } = clipOn(budget, 10);
    lease.close();
    expect(lease.hold(10)).toBe(false);
    expect(budget.heldBytes).toBe(0);
  });
});
