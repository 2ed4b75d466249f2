import { open, type FileHandle } from "node:fs/promises";
import { VideoRefused } from "./refusal";

/** Boxes with which an MP4 or MOV may begin. */
const FIRST_BOXES: readonly string[] = ["ftyp", "moov", "mdat", "free", "skip", "wide", "pnot", "uuid"];
/** Brands under which a phone keeps a photo in the boxes of a film. */
const PHOTO_BRANDS: readonly string[] = ["heic", "heix", "mif1", "avif"];
const PHOTO_STARTS: readonly Buffer[] = ["ffd8ff", "89504e470d0a1a0a", "474946383761", "474946383961"].map((hex) => Buffer.from(hex, "hex"));
/** Ten minutes in fragments of a thirtieth of a second have fewer. */
const MOST_BOXES = 50_000;
const WINDOW_BYTES = 65_536;
const EBML_HEAD = 0x1a45dfa3;
const SEGMENT = 0x18538067;

/**
 * Looks at the outermost parts of a file without decoding anything: is it an MP4, a MOV or a WebM at all, is its index there, is it
 * as long as it says. The file's name is never asked.
 * @returns which family it is of @throws VideoRefused
 */
export async function lookAtContainer(path: string): Promise<"boxes" | "webm"> {
  const file = await open(path, "r");
  try {
    const { size } = await file.stat();
    if (size === 0) throw new VideoRefused("empty");
    const first = await readAt(file, 0, Math.min(size, 4096));
    if (PHOTO_STARTS.some((start) => first.subarray(0, start.length).equals(start))) throw new VideoRefused("photo");
    if (size >= 8 && first.readUInt32BE(0) === EBML_HEAD) {
      lookAtWebm(first, size);
      return "webm";
    }
    if (size < 8 || !FIRST_BOXES.includes(first.toString("latin1", 4, 8))) throw new VideoRefused(isText(first) ? "text" : "not-a-video");
    if (first.toString("latin1", 4, 8) === "ftyp" && PHOTO_BRANDS.includes(first.toString("latin1", 8, 12))) throw new VideoRefused("photo");
    await walkBoxes(file, size);
    return "boxes";
  } finally {
    await file.close();
  }
}

async function walkBoxes(file: FileHandle, size: number): Promise<void> {
  let hasIndex = false;
  let at = 0;
  let seen: { readonly at: number; readonly bytes: Buffer } = { at: 0, bytes: Buffer.alloc(0) };
  // Small boxes lie close together: one look shows many of them.
  const headAt = async (position: number) => {
    if (position < seen.at || position + 16 > seen.at + seen.bytes.length) seen = { at: position, bytes: await readAt(file, position, WINDOW_BYTES) };
    return seen.bytes.subarray(position - seen.at, position - seen.at + 16);
  };
  for (let count = 0; at < size; count++) {
    if (count > MOST_BOXES) throw new VideoRefused("not-a-video");
    const head = await headAt(at);
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

/** The head must say "webm" (its larger relative holds anything), and the one segment must not say that it is longer than the file. */
function lookAtWebm(first: Buffer, size: number): void {
  const head = elementAt(first, 0);
  const segment = head?.length == null ? null : elementAt(first, head.bodyAt + head.length);
  if (!head || !segment || segment.id !== SEGMENT) throw new VideoRefused("not-a-video");
  if (!first.subarray(0, segment.bodyAt).includes(Buffer.from("\x42\x82\x84webm", "latin1"))) throw new VideoRefused("not-a-video");
  if (segment.length !== null && segment.bodyAt + segment.length > size) throw new VideoRefused("cut");
}

/** One element of EBML (RFC 8794, 4 to 6): its id, where its body begins and how long that is; null length when it is not said. */
function elementAt(bytes: Buffer, at: number): { readonly id: number; readonly bodyAt: number; readonly length: number | null } | null {
  const idWidth = Math.clz32(bytes[at] ?? 0) - 23;
  const sizeAt = at + idWidth;
  const sizeWidth = Math.clz32(bytes[sizeAt] ?? 0) - 23;
  if (idWidth > 4 || sizeWidth > 8 || sizeAt + sizeWidth > bytes.length) return null;
  const id = bytes.readUIntBE(at, idWidth);
  let length = (bytes[sizeAt] ?? 0) & (0xff >> sizeWidth);
  let isUnsaid = length === 0xff >> sizeWidth;
  for (const byte of bytes.subarray(sizeAt + 1, sizeAt + sizeWidth)) {
    length = length * 256 + byte;
    isUnsaid &&= byte === 0xff;
  }
  return { id, bodyAt: sizeAt + sizeWidth, length: isUnsaid ? null : length };
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
