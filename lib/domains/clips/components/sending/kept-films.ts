import type { Id } from "@/lib/core/ids";

/** A film that waits on this device until it has been sent, with what was answered. It has no name: that may hold a child's. */
export interface KeptFilm {
  readonly id: string;
  /** Who chose it here: nobody else is offered it. */
  readonly userId: Id;
  readonly playerId: Id;
  readonly uploadId: Id | null;
  readonly answers: Readonly<Record<string, string>>;
  readonly bytes: Blob;
  readonly keptAtMs: number;
}

const DATABASE = "cagebook-sending";
const STORE = "films";
/** What nobody came back for is not kept for ever. */
const KEPT_FOR_MS = 14 * 24 * 60 * 60_000;

/**
 * Keeps a film on this device, so that a page that is read anew can go on by itself.
 * @returns false when the browser cannot or will not: then it must be chosen again
 */
export async function keepFilm(film: KeptFilm): Promise<boolean> {
  return inStore("readwrite", (store) => store.put(film)).then(() => true, () => false);
}

export async function dropFilm(id: string): Promise<void> {
  await inStore("readwrite", (store) => store.delete(id)).catch(() => undefined);
}

/** The films of a person that wait here, the oldest first; those that waited too long are let go. */
export async function listKeptFilms(userId: Id, nowMs: number): Promise<readonly KeptFilm[]> {
  const all = await inStore<KeptFilm[]>("readonly", (store) => store.getAll()).catch(() => []);
  for (const { id } of all.filter(({ keptAtMs }) => nowMs - keptAtMs > KEPT_FOR_MS)) await dropFilm(id);
  return all.filter((it) => it.userId === userId && nowMs - it.keptAtMs <= KEPT_FOR_MS).sort((a, b) => a.keptAtMs - b.keptAtMs);
}

async function inStore<T>(mode: IDBTransactionMode, work: (store: IDBObjectStore) => IDBRequest): Promise<T> {
  const database = await open();
  try {
    return await new Promise<T>((resolve, reject) => {
      const transaction = database.transaction(STORE, mode);
      const request = work(transaction.objectStore(STORE));
      transaction.oncomplete = () => resolve(request.result as T);
      transaction.onabort = transaction.onerror = () => reject(transaction.error ?? new Error("not kept"));
    });
  } finally {
    database.close();
  }
}

function open(): Promise<IDBDatabase> {
  return new Promise((resolve, reject) => {
    const request = indexedDB.open(DATABASE, 1);
    request.onupgradeneeded = () => request.result.createObjectStore(STORE, { keyPath: "id" });
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(request.error ?? new Error("no store"));
    request.onblocked = () => reject(new Error("no store"));
  });
}
