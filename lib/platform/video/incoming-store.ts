import { createWriteStream } from "node:fs";
import path from "node:path";
import { pipeline } from "node:stream/promises";
import { Transform, type Readable } from "node:stream";
import { FileStore } from "@tus/file-store";
import { StoreFullError, storeError } from "../store-errors";
import { incomingFolder } from "./incoming";

/** Where the protocol's server puts the bytes that arrive. A full disk is said as such, and what has arrived stays. */
export class IncomingStore extends FileStore {
  constructor() {
    super({ directory: incomingFolder() });
  }

  override async write(bytes: Readable, uploadId: string, offset: number): Promise<number> {
    let arrived = 0;
    const counted = new Transform({
      transform(piece: Buffer, _encoding, done) {
        arrived += piece.length;
        done(null, piece);
      },
    });
    await pipeline(bytes, counted, createWriteStream(path.join(incomingFolder(), uploadId), { flags: "r+", start: offset })).catch((error: unknown) => {
      const said = storeError(error);
      // The protocol's server answers with what is thrown when it has this form.
      throw said instanceof StoreFullError ? { status_code: said.status, body: said.message } : error;
    });
    return offset + arrived;
  }
}
