import { PAIRS_CODE } from "./pairs-code";

/** The innermost loops; addresses in bytes. What they do stands in `pairs.assembly.ts`. */
export interface Kernel {
  sumOne(shape: number, a: number, absent: number, present: number, into: number): void;
  sumTwo(shape: number, a: number, b: number, absent: number, present: number, into: number): void;
  multiplyTwo(shape: number, a: number, b: number, into: number): void;
  differentiateSumOne(shape: number, a: number, absent: number, present: number, derivative: number, backA: number, shares: number): void;
  differentiateSumTwo(
    shape: number, a: number, b: number, absent: number, present: number, derivative: number, backA: number, isWhole: boolean, backB: number, shares: number,
  ): void;
  differentiateProduct(shape: number, a: number, b: number, derivative: number, backA: number, backB: number): void;
  largestOf(table: number, count: number): number;
}

const PAGE_BYTES = 65_536;

let compiled: WebAssembly.Module | null = null;

/**
 * The one memory that the kernel works in. It holds the tables of one problem at a time, since a problem's tables are
 * large, its layout is small, and laying the tables out anew costs one pass.
 */
export class Workspace {
  readonly kernel: Kernel;
  private readonly memory: WebAssembly.Memory;
  private top = 0;
  private holder: object | null = null;

  constructor() {
    this.memory = new WebAssembly.Memory({ initial: 16 });
    this.kernel = instantiate(this.memory);
  }

  /** Whether the tables of this problem are the ones that lie here. */
  isHeldBy(holder: object): boolean {
    return this.holder === holder;
  }

  /** Empties the memory for another problem. */
  clearFor(holder: object): void {
    // Address 0 stands for "nobody asks".
    this.top = 16;
    this.holder = holder;
  }

  /** Room for so many bytes, at a multiple of 16. Numbers that lay there before are still there. @throws RangeError when the memory is full */
  reserve(bytes: number): number {
    const at = this.top;
    this.top += Math.ceil(bytes / 16) * 16;
    const missing = this.top - this.memory.buffer.byteLength;
    if (missing > 0) this.memory.grow(Math.ceil(Math.max(missing, this.memory.buffer.byteLength / 2) / PAGE_BYTES));
    return at;
  }

  /** A view of some numbers; it is only good until room is reserved. */
  doubles(at: number, length: number): Float64Array {
    return new Float64Array(this.memory.buffer, at, length);
  }

  /** Puts whole numbers there and says where. */
  keepInts(values: Uint32Array): number {
    const at = this.reserve(4 * values.length);
    new Uint32Array(this.memory.buffer, at, values.length).set(values);
    return at;
  }
}

function instantiate(memory: WebAssembly.Memory): Kernel {
  compiled ??= new WebAssembly.Module(Uint8Array.from(atob(PAIRS_CODE), (letter) => letter.charCodeAt(0)));
  // The functions are those of the source, which a test compiles anew.
  return new WebAssembly.Instance(compiled, { env: { memory } }).exports as unknown as Kernel;
}
