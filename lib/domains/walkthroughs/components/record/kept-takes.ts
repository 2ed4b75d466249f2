import { openDB, type DBSchema, type IDBPDatabase } from "idb";
import type { TakeList } from "../../list/schema";

/** A take as it lies on this device until it was sent. */
export interface KeptTake {
  /** Who talked: nobody else is offered it. */
  readonly userId: string;
  readonly takeId: string;
  readonly playerId: string;
  readonly walkthroughId: string;
  readonly side: "right" | "left";
  readonly chapterId: string | null;
  readonly hasVoice: boolean;
  readonly list: TakeList;
}

interface Store extends DBSchema {
  takes: { key: string; value: KeptTake; indexes: { player: string } };
  /** The voice, piece by piece as the recorder gives it. */
  pieces: { key: [string, number]; value: { readonly takeId: string; readonly number: number; readonly bytes: ArrayBuffer; readonly type: string } };
}

let opened: Promise<IDBPDatabase<Store>> | null = null;

function open(): Promise<IDBPDatabase<Store>> {
  opened ??= openDB<Store>("cagebook-walkthroughs", 1, {
    upgrade(db) {
      db.createObjectStore("takes", { keyPath: "takeId" }).createIndex("player", "playerId");
      db.createObjectStore("pieces", { keyPath: ["takeId", "number"] });
    },
  });
  return opened;
}

/** Keeps what there is of a take so far; the last keeping counts. */
export async function keepOnDevice(take: KeptTake): Promise<void> {
  await (await open()).put("takes", take);
}

/** Keeps one more piece of its voice. */
export async function keepPiece(takeId: string, number: number, piece: Blob): Promise<void> {
  const bytes = await piece.arrayBuffer();
  await (await open()).put("pieces", { takeId, number, bytes, type: piece.type });
}

/** The takes of a player that somebody told and did not send. */
export async function listKeptTakes(userId: string, playerId: string): Promise<readonly KeptTake[]> {
  return (await (await open()).getAllFromIndex("takes", "player", playerId)).filter((take) => take.userId === userId);
}

const piecesOf = (takeId: string) => IDBKeyRange.bound([takeId, 0], [takeId, Infinity]);

/** The voice as far as it was kept; null when there is none. */
export async function readKeptVoice(takeId: string): Promise<Blob | null> {
  const pieces = await (await open()).getAll("pieces", piecesOf(takeId));
  return pieces.length === 0 ? null : new Blob(pieces.map(({ bytes }) => bytes), { type: pieces[0]?.type ?? "" });
}

/** Takes it off the device: it was sent, or is not wanted. */
export async function dropFromDevice(takeId: string): Promise<void> {
  const db = await open();
  const change = db.transaction(["takes", "pieces"], "readwrite");
  await Promise.all([change.objectStore("takes").delete(takeId), change.objectStore("pieces").delete(piecesOf(takeId)), change.done]);
}
