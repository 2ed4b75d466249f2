/** A seeded source of random numbers: the same seed gives the same numbers on every machine. */
export interface Random {
  /** Uniform on [0, 1). */
  uniform(): number;
  /** Standard normal. */
  normal(): number;
}

/**
 * SplitMix-seeded xoshiro128** (Blackman & Vigna 2018, public domain), 32-bit.
 * @param seed any integer or text; text is hashed with FNV-1a.
 */
export function seededRandom(seed: number | string): Random {
  let h = typeof seed === "number" ? seed >>> 0 : fnv1a(seed);
  const next = () => {
    h = (h + 0x9e3779b9) >>> 0;
    let z = h;
    z = Math.imul(z ^ (z >>> 16), 0x21f0aaad);
    z = Math.imul(z ^ (z >>> 15), 0x735a2d97);
    return (z ^ (z >>> 15)) >>> 0;
  };
  let a = next(), b = next(), c = next(), d = next();
  const uint32 = () => {
    const mixed = Math.imul(b, 5);
    const result = Math.imul((mixed << 7) | (mixed >>> 25), 9) >>> 0;
    const t = b << 9;
    c ^= a;
    d ^= b;
    b ^= c;
    a ^= d;
    c ^= t;
    d = (d << 11) | (d >>> 21);
    return result;
  };
  const uniform = () => (uint32() * 2097152 + (uint32() >>> 11)) / 9007199254740992;
  let spare: number | null = null;
  const normal = () => {
    if (spare !== null) {
      const kept = spare;
      spare = null;
      return kept;
    }
    const radius = Math.sqrt(-2 * Math.log(1 - uniform()));
    const angle = 2 * Math.PI * uniform();
    spare = radius * Math.sin(angle);
    return radius * Math.cos(angle);
  };
  return { uniform, normal };
}

function fnv1a(text: string): number {
  let hash = 0x811c9dc5;
  for (let i = 0; i < text.length; i++) hash = Math.imul(hash ^ text.charCodeAt(i), 0x01000193);
  return hash >>> 0;
}
