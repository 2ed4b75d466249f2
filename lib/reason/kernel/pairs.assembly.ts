/**
 * The innermost loops of the elimination, in AssemblyScript: `npm run kernel` compiles this file to `pairs-code.ts`, and a test
 * holds the two against each other. Tables are 64-bit numbers in pairs (variable absent, present), so that a pair is one vector.
 * `low` and `high` say in bytes where the pair of an input stands beside each pair of the step: the sum of one of each.
 */

/** One input with its variable summed out. */
export function sumOne(a: usize, lowA: usize, highA: usize, lowCount: i32, highCount: i32, absent: f64, present: f64, into: usize): void {
  const weights = f64x2.replace_lane(f64x2.splat(absent), 1, present);
  for (let block = 0; block < highCount; block++) {
    const blockA = a + <usize>load<u32>(highA + (block << 2));
    for (let i = 0; i < lowCount; i++) {
      const pair = f64x2.mul(weights, v128.load(blockA + <usize>load<u32>(lowA + (i << 2))));
      store<f64>(into, f64x2.extract_lane(pair, 0) + f64x2.extract_lane(pair, 1));
      into += 8;
    }
  }
}

/** The product of two inputs with their variable summed out. */
export function sumTwo(a: usize, lowA: usize, highA: usize, b: usize, lowB: usize, highB: usize, lowCount: i32, highCount: i32, absent: f64, present: f64, into: usize): void {
  const weights = f64x2.replace_lane(f64x2.splat(absent), 1, present);
  for (let block = 0; block < highCount; block++) {
    const blockA = a + <usize>load<u32>(highA + (block << 2));
    const blockB = b + <usize>load<u32>(highB + (block << 2));
    for (let i = 0; i < lowCount; i++) {
      const pairA = f64x2.mul(weights, v128.load(blockA + <usize>load<u32>(lowA + (i << 2))));
      const pair = f64x2.mul(pairA, v128.load(blockB + <usize>load<u32>(lowB + (i << 2))));
      store<f64>(into, f64x2.extract_lane(pair, 0) + f64x2.extract_lane(pair, 1));
      into += 8;
    }
  }
}

/** The product of two inputs, over all their variables. */
export function multiplyTwo(a: usize, lowA: usize, highA: usize, b: usize, lowB: usize, highB: usize, lowCount: i32, highCount: i32, into: usize): void {
  for (let block = 0; block < highCount; block++) {
    const blockA = a + <usize>load<u32>(highA + (block << 2));
    const blockB = b + <usize>load<u32>(highB + (block << 2));
    for (let i = 0; i < lowCount; i++) {
      v128.store(into, f64x2.mul(v128.load(blockA + <usize>load<u32>(lowA + (i << 2))), v128.load(blockB + <usize>load<u32>(lowB + (i << 2)))));
      into += 16;
    }
  }
}

/** Reverse differentiation of `sumOne`; `backA` is added to, 0 where nobody asks. The shares of both states go to `shares`. */
export function differentiateSumOne(a: usize, lowA: usize, highA: usize, lowCount: i32, highCount: i32, absent: f64, present: f64, derivative: usize, backA: usize, shares: usize): void {
  const weights = f64x2.replace_lane(f64x2.splat(absent), 1, present);
  let sum = f64x2.splat(0);
  for (let block = 0; block < highCount; block++) {
    const blockA = <usize>load<u32>(highA + (block << 2));
    for (let i = 0; i < lowCount; i++) {
      const at = blockA + <usize>load<u32>(lowA + (i << 2));
      const back = f64x2.mul(weights, v128.load64_splat(derivative));
      derivative += 8;
      sum = f64x2.add(sum, f64x2.mul(back, v128.load(a + at)));
      if (backA != 0) v128.store(backA + at, f64x2.add(v128.load(backA + at), back));
    }
  }
  v128.store(shares, sum);
}

/** Reverse differentiation of `sumTwo`. */
export function differentiateSumTwo(
  a: usize, lowA: usize, highA: usize, b: usize, lowB: usize, highB: usize, lowCount: i32, highCount: i32,
  absent: f64, present: f64, derivative: usize, backA: usize, backB: usize, shares: usize,
): void {
  const weights = f64x2.replace_lane(f64x2.splat(absent), 1, present);
  let sum = f64x2.splat(0);
  for (let block = 0; block < highCount; block++) {
    const blockA = <usize>load<u32>(highA + (block << 2));
    const blockB = <usize>load<u32>(highB + (block << 2));
    for (let i = 0; i < lowCount; i++) {
      const atA = blockA + <usize>load<u32>(lowA + (i << 2));
      const atB = blockB + <usize>load<u32>(lowB + (i << 2));
      const pairA = v128.load(a + atA);
      const back = f64x2.mul(weights, v128.load64_splat(derivative));
      derivative += 8;
      const byA = f64x2.mul(back, v128.load(b + atB));
      sum = f64x2.add(sum, f64x2.mul(pairA, byA));
      if (backA != 0) v128.store(backA + atA, f64x2.add(v128.load(backA + atA), byA));
      if (backB != 0) v128.store(backB + atB, f64x2.add(v128.load(backB + atB), f64x2.mul(back, pairA)));
    }
  }
  v128.store(shares, sum);
}

/** Reverse differentiation of `multiplyTwo`. */
export function differentiateProduct(
  a: usize, lowA: usize, highA: usize, b: usize, lowB: usize, highB: usize, lowCount: i32, highCount: i32, derivative: usize, backA: usize, backB: usize,
): void {
  for (let block = 0; block < highCount; block++) {
    const blockA = <usize>load<u32>(highA + (block << 2));
    const blockB = <usize>load<u32>(highB + (block << 2));
    for (let i = 0; i < lowCount; i++) {
      const atA = blockA + <usize>load<u32>(lowA + (i << 2));
      const atB = blockB + <usize>load<u32>(lowB + (i << 2));
      const back = v128.load(derivative);
      derivative += 16;
      if (backA != 0) v128.store(backA + atA, f64x2.add(v128.load(backA + atA), f64x2.mul(back, v128.load(b + atB))));
      if (backB != 0) v128.store(backB + atB, f64x2.add(v128.load(backB + atB), f64x2.mul(back, v128.load(a + atA))));
    }
  }
}

/** The largest absolute number of a table of at least two. */
export function largestOf(table: usize, count: i32): f64 {
  let largest = f64x2.splat(0);
  for (let i = 0; i < count; i += 2) {
    largest = f64x2.max(largest, f64x2.abs(v128.load(table)));
    table += 16;
  }
  return max(f64x2.extract_lane(largest, 0), f64x2.extract_lane(largest, 1));
}
