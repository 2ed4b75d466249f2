import { open, type FileHandle } from "node:fs/promises";
import { VideoRefused } from "./refusal";

/** Boxes with which an MP4 or MOV may begin. */
const FIRST_BOXES: readonly string[] = ["ftyp", "moov", "mdat", "free", "skip", "wide", "pnot", "uuid"];
const MOST_BOXES = 100_000;

/**
 * Looks at the outermost boxes of a file without decoding anything: is it an MP4 or MOV at all, is its index there, is it
 * as long as it says. @throws VideoRefused
 */
export async function lookAtBoxes(path: string): Promise<void> {
  const file = await open(path, "r");
  try {
    const { size } = await file.stat();
    if (size === 0) throw new VideoRefused("empty");
    const first = await readAt(file, 0, Math.min(size, 4096));
    if (size < 8 || !FIRST_BOXES.includes(first.toString("latin1", 4, 8))) throw new VideoRefused(isText(first) ? "text" : "not-a-video");
    await walk(file, size);
  } finally {
    await file.close();
  }
}

async function walk(file: FileHandle, size: number): Promise<void> {
  let hasIndex = false;
  let at = 0;
  for (let count = 0; at < size; count++) {
    if (count > MOST_BOXES) throw new VideoRefused("not-a-video");
    const head = await readAt(file, at, 16);
    if (head.length < 8) throw new VideoRefused("cut");
    const short = head.readUInt32BE(0);
    const isLong = short === 1;
    if (isLong && head.length < 16) throw new VideoRefused("cut");
    const length = isLong ? Number(head.readBigUInt64BE(8)) : short === 0 ? size - at : short;
    if (length < (isLong ? 16 : 8)) throw new VideoRefused("not-a-video");
    if (at + length > size) throw new VideoRefused("cut");
    hasIndex ||= head.toString("latin1", 4, 8) === "moov";
    at += length;
  }
  if (!hasIndex) throw new VideoRefused("cut");
}

async function readAt(file: FileHandle, position: number, length: number): Promise<Buffer> {
  const { bytesRead, buffer } = await file.read(Buffer.alloc(length), 0, length, position);
  return buffer.subarray(0, bytesRead);
}

/** True for bytes that a person could read: UTF-8 without control marks. A letter cut at the end is allowed for. */
function isText(bytes: Buffer): boolean {
  if (bytes.some((byte) => byte < 9 || (byte > 13 && byte < 32))) return false;
  return !bytes.subarray(0, Math.max(0, bytes.length - 3)).toString("utf8").includes("\ufffd");
}
