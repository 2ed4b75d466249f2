import { buffer } from "node:stream/consumers";
import { blobs } from "./blobs";

/** A small still as an address that holds the picture itself; null where there is none. */
export async function smallStill(key: string): Promise<string | null> {
  if ((await blobs().lengthOf(key)) === null) return null;
  return `data:image/webp;base64,${(await buffer(blobs().read(key))).toString("base64")}`;
}
