import type { Operation } from "@/lib/access/operation";
import { COLUMNS, type Cast, type Column } from "./cast";

/** One line of the access table, written by hand. */
export interface AccessRow {
  /** Name of the query, action or route. */
  readonly name: string;
  /** Who is let through; everybody else must be refused. */
  readonly may: readonly Column[] | "everybody" | "everybody signed in";
  /** What it is asked for: something of Pia's, made when the row is tried. */
  readonly input: (cast: Cast) => unknown | Promise<unknown>;
}

const SIGNED_IN = COLUMNS.filter((column) => column !== "nobody" && column !== "goneCoach");

function expected(row: AccessRow): readonly Column[] {
  if (row.may === "everybody") return COLUMNS;
  return row.may === "everybody signed in" ? SIGNED_IN : row.may;
}

/** In which columns an operation answers otherwise than its row says, in words. */
export async function mismatchesOf(operation: Operation, row: AccessRow, cast: Cast): Promise<string[]> {
  const may = expected(row);
  const input = await row.input(cast);
  const found: string[] = [];
  for (const column of COLUMNS) {
    const isLetIn = await operation.permits(cast.actors[column], input);
    if (isLetIn !== may.includes(column)) found.push(`${row.name}: ${column} ${isLetIn ? "is let in and may not" : "is refused and may"}`);
  }
  return found;
}
