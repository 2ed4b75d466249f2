import { seededRandom } from "@/lib/core/random";

export const SAMPLE_RATE = 48_000;

/**
 * The clip's sound as a mono 16-bit WAV file: a quiet room and one crack. The crack begins on the sample of the contact itself:
 * nothing is added for the way of the sound to the camera.
 */
export function crackWav(seconds: number, contactAtSeconds: number, isWood: boolean, seed: number): Buffer {
  const random = seededRandom(`sound ${seed}`);
  const count = Math.round(seconds * SAMPLE_RATE);
  const data = Buffer.alloc(44 + 2 * count);
  data.write("RIFF", 0);
  data.writeUInt32LE(36 + 2 * count, 4);
  data.write("WAVEfmt ", 8);
  data.writeUInt32LE(16, 16);
  data.writeUInt16LE(1, 20);
  data.writeUInt16LE(1, 22);
  data.writeUInt32LE(SAMPLE_RATE, 24);
  data.writeUInt32LE(2 * SAMPLE_RATE, 28);
  data.writeUInt16LE(2, 32);
  data.writeUInt16LE(16, 34);
  data.write("data", 36);
  data.writeUInt32LE(2 * count, 40);
  const tones = isWood ? ([[1180, 90, 0.5], [2350, 140, 0.3], [530, 60, 0.35]] as const) : ([[2120, 26, 0.34], [3380, 34, 0.22], [640, 70, 0.4]] as const);
  const first = Math.round(contactAtSeconds * SAMPLE_RATE);
  let hush = 0;
  for (let i = 0; i < count; i++) {
    hush = 0.97 * hush + 0.03 * random.normal();
    let value = 0.012 * hush;
    const t = (i - first) / SAMPLE_RATE;
    if (t >= 0 && t < 0.6) {
      value += 0.55 * random.normal() * Math.exp(-t * 420);
      for (const [hz, decay, loud] of tones) value += loud * Math.cos(2 * Math.PI * hz * t) * Math.exp(-t * decay);
      if (t > 0.02) value += 0.03 * random.normal() * Math.exp(-(t - 0.02) * 14);
    }
    data.writeInt16LE(Math.round(32767 * Math.tanh(0.85 * value)), 44 + 2 * i);
  }
  return data;
}
