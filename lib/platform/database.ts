import { PrismaPg } from "@prisma/adapter-pg";
import { Prisma, PrismaClient } from "./generated/client";
import { settings } from "./settings";

export { Prisma };

/** The database inside a transaction. */
export type Transaction = Prisma.TransactionClient;
/** Anything one can read and write rows with: the database itself or a transaction. */
export type Database = PrismaClient | Transaction;

function connect(most: number): PrismaClient {
  return new PrismaClient({ adapter: new PrismaPg({ connectionString: settings().DATABASE_URL, max: most }) });
}

// The development server loads modules anew on every change; the pool must not be opened anew with them.
const kept = globalThis as { cagebookDatabase?: PrismaClient; cagebookCounters?: PrismaClient };

/** The process's pool of connections, opened at first use. */
export function database(): PrismaClient {
  kept.cagebookDatabase ??= connect(10);
  return kept.cagebookDatabase;
}

/**
 * Connections of their own for what is counted beside a transaction and must stay when it is rolled back. A transaction
 * that waits for one here never waits for another transaction, so that a crowd at the door cannot stop the house.
 */
export function countersDatabase(): PrismaClient {
  kept.cagebookCounters ??= connect(2);
  return kept.cagebookCounters;
}

/** Runs work in one transaction: all of it happens, or none. */
export async function inTransaction<T>(work: (tx: Transaction) => Promise<T>): Promise<T> {
  return database().$transaction(work, { maxWait: 10_000, timeout: 20_000 });
}

/** Which unique index refused a row, or null when the error is another one. The database decides duplicates. */
export function refusedByUnique(error: unknown): string | null {
  if (!(error instanceof Prisma.PrismaClientKnownRequestError) || error.code !== "P2002") return null;
  return JSON.stringify(error.meta ?? {});
}

/** Closes the pools (tests and the worker's end). */
export async function closeDatabase(): Promise<void> {
  await Promise.all([kept.cagebookDatabase?.$disconnect(), kept.cagebookCounters?.$disconnect()]);
  delete kept.cagebookDatabase;
  delete kept.cagebookCounters;
}
