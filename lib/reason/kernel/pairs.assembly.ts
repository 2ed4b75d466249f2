/**
 * The innermost loops of the elimination, in AssemblyScript: `npm run kernel` compiles this file to `pairs-code.ts`, and a test
 * holds the two against each other. Tables are 64-bit numbers in pairs (variable absent, present), so that a pair is one vector.
 * A shape says in bytes where pairs stand in the inputs and single numbers in what is handed on: the sum of an outer, a middle and
 * an inner offset each. Where a second input is summed over, it stays the same through the inner ones.
 */

/** Twelve whole numbers at `shape`: for the outer, the middle and the inner offsets where those of a, b and the result lie, and how many. */
@inline
function field(shape: usize, at: i32): usize {
  return <usize>load<u32>(shape + (at << 2));
}

@inline
function offset(list: usize, at: i32): usize {
  return <usize>load<u32>(list + (at << 2));
}

/** One input with its variable summed out. */
export function sumOne(shape: usize, a: usize, absent: f64, present: f64, into: usize): void {
  const outerA = field(shape, 0), outerInto = field(shape, 2), outerCount = <i32>field(shape, 3);
  const innerA = field(shape, 8), innerInto = field(shape, 10), innerCount = <i32>field(shape, 11);
  const weights = f64x2.replace_lane(f64x2.splat(absent), 1, present);
  for (let outer = 0; outer < outerCount; outer++) {
    const fromA = a + offset(outerA, outer);
    const to = into + offset(outerInto, outer);
    for (let i = 0; i < innerCount; i++) {
      const pair = f64x2.mul(weights, v128.load(fromA + offset(innerA, i)));
      store<f64>(to + offset(innerInto, i), f64x2.extract_lane(pair, 0) + f64x2.extract_lane(pair, 1));
    }
  }
}

/** The product of two inputs with their variable summed out. */
export function sumTwo(shape: usize, a: usize, b: usize, absent: f64, present: f64, into: usize): void {
  const outerA = field(shape, 0), outerB = field(shape, 1), outerInto = field(shape, 2), outerCount = <i32>field(shape, 3);
  const middleA = field(shape, 4), middleB = field(shape, 5), middleInto = field(shape, 6), middleCount = <i32>field(shape, 7);
  const innerA = field(shape, 8), innerInto = field(shape, 10), innerCount = <i32>field(shape, 11);
  const weights = f64x2.replace_lane(f64x2.splat(absent), 1, present);
  for (let outer = 0; outer < outerCount; outer++) {
    const outerFromA = a + offset(outerA, outer);
    const outerFromB = b + offset(outerB, outer);
    const outerTo = into + offset(outerInto, outer);
    for (let middle = 0; middle < middleCount; middle++) {
      const fromA = outerFromA + offset(middleA, middle);
      const to = outerTo + offset(middleInto, middle);
      const factor = f64x2.mul(weights, v128.load(outerFromB + offset(middleB, middle)));
      for (let i = 0; i < innerCount; i++) {
        const pair = f64x2.mul(factor, v128.load(fromA + offset(innerA, i)));
        store<f64>(to + offset(innerInto, i), f64x2.extract_lane(pair, 0) + f64x2.extract_lane(pair, 1));
      }
    }
  }
}

/** The product of two inputs, over all their variables. */
export function multiplyTwo(shape: usize, a: usize, b: usize, into: usize): void {
  const outerA = field(shape, 0), outerB = field(shape, 1), outerCount = <i32>field(shape, 3);
  const innerA = field(shape, 8), innerB = field(shape, 9), innerCount = <i32>field(shape, 11);
  for (let outer = 0; outer < outerCount; outer++) {
    const fromA = a + offset(outerA, outer);
    const fromB = b + offset(outerB, outer);
    for (let i = 0; i < innerCount; i++) {
      v128.store(into, f64x2.mul(v128.load(fromA + offset(innerA, i)), v128.load(fromB + offset(innerB, i))));
      into += 16;
    }
  }
}

/** Reverse differentiation of `sumOne`; `backA` is added to, 0 where nobody asks. The shares of both states go to `shares`. */
export function differentiateSumOne(shape: usize, a: usize, absent: f64, present: f64, derivative: usize, backA: usize, shares: usize): void {
  const outerA = field(shape, 0), outerBy = field(shape, 2), outerCount = <i32>field(shape, 3);
  const innerA = field(shape, 8), innerBy = field(shape, 10), innerCount = <i32>field(shape, 11);
  const weights = f64x2.replace_lane(f64x2.splat(absent), 1, present);
  let sum = f64x2.splat(0);
  for (let outer = 0; outer < outerCount; outer++) {
    const fromA = offset(outerA, outer);
    const by = derivative + offset(outerBy, outer);
    for (let i = 0; i < innerCount; i++) {
      const at = fromA + offset(innerA, i);
      const back = f64x2.mul(weights, v128.load64_splat(by + offset(innerBy, i)));
      sum = f64x2.add(sum, f64x2.mul(back, v128.load(a + at)));
      if (backA != 0) v128.store(backA + at, f64x2.add(v128.load(backA + at), back));
    }
  }
  v128.store(shares, sum);
}

/** Reverse differentiation of `sumTwo`; where `isWhole`, each pair of a is met once, and `backA` is written instead of added to. */
export function differentiateSumTwo(
  shape: usize, a: usize, b: usize, absent: f64, present: f64, derivative: usize, backA: usize, isWhole: bool, backB: usize, shares: usize,
): void {
  const outerA = field(shape, 0), outerB = field(shape, 1), outerBy = field(shape, 2), outerCount = <i32>field(shape, 3);
  const middleA = field(shape, 4), middleB = field(shape, 5), middleBy = field(shape, 6), middleCount = <i32>field(shape, 7);
  const innerA = field(shape, 8), innerBy = field(shape, 10), innerCount = <i32>field(shape, 11);
  const weights = f64x2.replace_lane(f64x2.splat(absent), 1, present);
  let sum = f64x2.splat(0);
  for (let outer = 0; outer < outerCount; outer++) {
    const outerFromA = offset(outerA, outer);
    const outerFromB = offset(outerB, outer);
    const outerFromBy = derivative + offset(outerBy, outer);
    for (let middle = 0; middle < middleCount; middle++) {
      const fromA = outerFromA + offset(middleA, middle);
      const atB = outerFromB + offset(middleB, middle);
      const by = outerFromBy + offset(middleBy, middle);
      const factor = f64x2.mul(weights, v128.load(b + atB));
      const readA = a + fromA;
      let met = f64x2.splat(0);
      if (backA == 0) {
        for (let i = 0; i < innerCount; i++) {
          met = f64x2.add(met, f64x2.mul(v128.load64_splat(by + offset(innerBy, i)), v128.load(readA + offset(innerA, i))));
        }
      } else if (isWhole) {
        const writeA = backA + fromA;
        for (let i = 0; i < innerCount; i++) {
          const back = v128.load64_splat(by + offset(innerBy, i));
          const at = offset(innerA, i);
          met = f64x2.add(met, f64x2.mul(back, v128.load(readA + at)));
          v128.store(writeA + at, f64x2.mul(factor, back));
        }
      } else {
        const writeA = backA + fromA;
        for (let i = 0; i < innerCount; i++) {
          const back = v128.load64_splat(by + offset(innerBy, i));
          const at = offset(innerA, i);
          met = f64x2.add(met, f64x2.mul(back, v128.load(readA + at)));
          v128.store(writeA + at, f64x2.add(v128.load(writeA + at), f64x2.mul(factor, back)));
        }
      }
      sum = f64x2.add(sum, f64x2.mul(met, factor));
      if (backB != 0) v128.store(backB + atB, f64x2.add(v128.load(backB + atB), f64x2.mul(met, weights)));
    }
  }
  v128.store(shares, sum);
}

/** Reverse differentiation of `multiplyTwo`. */
export function differentiateProduct(shape: usize, a: usize, b: usize, derivative: usize, backA: usize, backB: usize): void {
  const outerA = field(shape, 0), outerB = field(shape, 1), outerCount = <i32>field(shape, 3);
  const innerA = field(shape, 8), innerB = field(shape, 9), innerCount = <i32>field(shape, 11);
  for (let outer = 0; outer < outerCount; outer++) {
    const fromA = offset(outerA, outer);
    const fromB = offset(outerB, outer);
    for (let i = 0; i < innerCount; i++) {
      const atA = fromA + offset(innerA, i);
      const atB = fromB + offset(innerB, i);
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
