import { execFileSync } from "node:child_process";
import { createCanvas } from "@napi-rs/canvas";

/** Samples a second at which sound is compared. */
export const RATE = 48_000;
const COARSE = 12;

/** The sound of a file as one channel. */
export function decode(file: string): Float32Array {
  const bytes = execFileSync("ffmpeg", ["-v", "error", "-i", file, "-map", "0:a:0", "-ac", "1", "-ar", String(RATE), "-f", "f32le", "-"], { maxBuffer: 1024 ** 3 });
  return new Float32Array(bytes.buffer.slice(bytes.byteOffset, bytes.byteOffset + bytes.byteLength));
}

export interface Lag {
  /** Samples by which the piece lies later than it was looked for. */
  readonly samples: number;
  /** How alike they are there, at most 1. */
  readonly likeness: number;
  /** Loudness of the piece over what it was found in, in decibels. */
  readonly gainDb: number;
}

const coarse = (sound: Float32Array) => {
  const out = new Float32Array(Math.floor(sound.length / COARSE));
  for (let i = 0; i < out.length; i++) for (let k = 0; k < COARSE; k++) out[i] = (out[i] ?? 0) + (sound[i * COARSE + k] ?? 0) / COARSE;
  return out;
};
const kept = new WeakMap<Float32Array, Float32Array>();
const coarseOf = (sound: Float32Array) => kept.get(sound) ?? (kept.set(sound, coarse(sound)), kept.get(sound) ?? sound);

function likenessAt(piece: Float32Array, from: number, whole: Float32Array, at: number, length: number): { readonly likeness: number; readonly gain: number } {
  let [both, own, other] = [0, 0, 0];
  for (let i = 0; i < length; i++) {
    const [a, b] = [piece[from + i] ?? 0, whole[at + i] ?? 0];
    both += a * b;
    own += a * a;
    other += b * b;
  }
  return { likeness: both / Math.sqrt(own * other + 1e-12), gain: Math.sqrt((own + 1e-12) / (other + 1e-12)) };
}

/** Where a piece of one sound is found in another, looked for around a place; in samples of both. */
export function bestLag(piece: Float32Array, from: number, length: number, whole: Float32Array, around: number, reach: number): Lag {
  const [smallPiece, smallWhole] = [coarseOf(piece), coarseOf(whole)];
  let best = { at: 0, likeness: -1 };
  for (let lag = -Math.ceil(reach / COARSE); lag <= reach / COARSE; lag++) {
    const { likeness } = likenessAt(smallPiece, Math.round(from / COARSE), smallWhole, Math.round(around / COARSE) + lag, Math.floor(length / COARSE));
    if (likeness > best.likeness) best = { at: lag * COARSE, likeness };
  }
  let fine: Lag = { samples: 0, likeness: -1, gainDb: 0 };
  for (let lag = best.at - 2 * COARSE; lag <= best.at + 2 * COARSE; lag++) {
    const { likeness, gain } = likenessAt(piece, from, whole, around + lag, length);
    if (likeness > fine.likeness) fine = { samples: lag, likeness, gainDb: 20 * Math.log10(gain) };
  }
  return fine;
}

/** Root mean square of a stretch, in decibels of full scale. */
export function levelDb(sound: Float32Array, from: number, length: number): number {
  let sum = 0;
  for (let i = from; i < from + length; i++) sum += (sound[i] ?? 0) ** 2;
  return 10 * Math.log10(sum / length + 1e-12);
}

const STEP = RATE / 100;

/** Stretches of a hundredth of a second and more in which one sound is silent while the other one speaks; both from their beginnings. */
export function gapsIn(sound: Float32Array, other: Float32Array): readonly { readonly atMs: number; readonly lengthMs: number }[] {
  const gaps: { atMs: number; lengthMs: number }[] = [];
  for (let at = 0; at + STEP <= Math.min(sound.length, other.length); at += STEP) {
    if (!(levelDb(other, at, STEP) > -40 && levelDb(sound, at, STEP) < -60)) continue;
    const last = gaps.at(-1);
    const atMs = (at / RATE) * 1000;
    if (last && last.atMs + last.lengthMs === atMs) last.lengthMs += 10;
    else gaps.push({ atMs, lengthMs: 10 });
  }
  return gaps;
}

export interface Loudness {
  readonly lufs: number;
  readonly truePeakDb: number;
  /** Samples at full scale. */
  readonly clipped: number;
}

/** Loudness as EBU R 128 measures it, by ffmpeg. */
export function loudnessOf(file: string, sound = decode(file)): Loudness {
  const said = execFileSync("bash", ["-c", `ffmpeg -hide_banner -nostats -i "$1" -map 0:a:0 -af ebur128=peak=true -f null - 2>&1`, "-", file], { encoding: "utf8" });
  const summary = said.slice(said.lastIndexOf("Summary:"));
  return { lufs: Number(/I:\s+(-?[\d.]+) LUFS/.exec(summary)?.[1]), truePeakDb: Number(/Peak:\s+(-?[\d.]+) dBFS/.exec(summary)?.[1]), clipped: sound.filter((it) => Math.abs(it) >= 0.9999).length };
}

/** The largest step from sample to sample within 20 ms of an instant, over the largest one of the whole but for a thousandth: a click stands out. */
export function clickAt(sound: Float32Array, at: number): number {
  const step = (i: number) => Math.abs((sound[i + 1] ?? 0) - (sound[i] ?? 0));
  let there = 0;
  for (let i = Math.max(0, at - RATE / 50); i < at + RATE / 50; i++) there = Math.max(there, step(i));
  const all = Float32Array.from({ length: Math.max(1, sound.length - 1) }, (_, i) => step(i)).sort();
  return there / ((all[Math.floor(all.length * 0.999)] ?? 0) + 1e-9);
}

const WINDOW = 2048;
const HOP = 1024;
const SHOWN_HZ = 8_000;

/** A picture of a sound: time goes right, pitch goes up to 8 kHz, bright is loud (80 dB from black to white). */
export function spectrum(sound: Float32Array): Buffer {
  const columns = Math.max(1, Math.floor((sound.length - WINDOW) / HOP));
  const rows = Math.round((SHOWN_HZ / RATE) * WINDOW);
  const canvas = createCanvas(columns, rows);
  const pen = canvas.getContext("2d");
  const picture = pen.createImageData(columns, rows);
  for (let column = 0; column < columns; column++) {
    const real = Float64Array.from({ length: WINDOW }, (_, i) => (sound[column * HOP + i] ?? 0) * (0.5 - 0.5 * Math.cos((2 * Math.PI * i) / WINDOW)));
    const imaginary = new Float64Array(WINDOW);
    transform(real, imaginary);
    for (let row = 0; row < rows; row++) {
      const db = 10 * Math.log10(((real[row] ?? 0) ** 2 + (imaginary[row] ?? 0) ** 2) / WINDOW ** 2 + 1e-12) + 12;
      picture.data.fill(Math.max(0, Math.min(255, ((db + 90) / 80) * 255)), ((rows - 1 - row) * columns + column) * 4, ((rows - 1 - row) * columns + column) * 4 + 3);
      picture.data[((rows - 1 - row) * columns + column) * 4 + 3] = 255;
    }
  }
  pen.putImageData(picture, 0, 0);
  return canvas.toBuffer("image/png");
}

/** The discrete Fourier transform, in place; as many values as a power of two. */
function transform(real: Float64Array, imaginary: Float64Array): void {
  const count = real.length;
  for (let i = 1, j = 0; i < count; i++) {
    let bit = count >> 1;
    for (; j & bit; bit >>= 1) j ^= bit;
    j ^= bit;
    if (i < j) for (const part of [real, imaginary]) [part[i], part[j]] = [part[j] ?? 0, part[i] ?? 0];
  }
  for (let length = 2; length <= count; length <<= 1) {
    const angle = (-2 * Math.PI) / length;
    for (let start = 0; start < count; start += length) {
      for (let k = 0; k < length / 2; k++) {
        const [a, b] = [start + k, start + k + length / 2];
        const [cos, sin] = [Math.cos(angle * k), Math.sin(angle * k)];
        const [x, y] = [(real[b] ?? 0) * cos - (imaginary[b] ?? 0) * sin, (real[b] ?? 0) * sin + (imaginary[b] ?? 0) * cos];
        [real[b], imaginary[b]] = [(real[a] ?? 0) - x, (imaginary[a] ?? 0) - y];
        [real[a], imaginary[a]] = [(real[a] ?? 0) + x, (imaginary[a] ?? 0) + y];
      }
    }
  }
}
