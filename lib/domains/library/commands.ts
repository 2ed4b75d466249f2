import { contentHash } from "@/lib/core/canonical-json";
import { InvalidError } from "@/lib/core/errors";
import { newId, type Id } from "@/lib/core/ids";
import { problemLine, type RecordProblem } from "@/lib/core/record-problem";
import { now } from "@/lib/platform/clock";
import type { Prisma, Transaction } from "@/lib/platform/database";
import { checkLibrary, OUR_FORMULAS } from "./rules";
import { type LibraryParts, readLibrary } from "./schema";
import {
  causeEdgeRows, causeNodeRows, checkpointRow, drillFaultRows, drillRow, type EditionHead, editionHead, faultCueRows, faultLinkRows, faultNameRows,
  faultRow, findEditionInForce, partRows,
} from "./scope";

/** Why files did not become a library: one sentence for each problem, with file, record and field. Nothing was written. */
export class LibraryRefusedError extends InvalidError {
  constructor(readonly problems: readonly RecordProblem[]) {
    super(`The library was not imported; nothing was changed.\n${problems.map(problemLine).join("\n")}`);
  }
}

/**
 * Makes a library's files (parsed JSON by name) the first edition of an academy and fills the working tables. An academy
 * that has an edition keeps it: a second import does nothing.
 * @throws LibraryRefusedError naming everything that is not right
 */
export async function importLibrary(
  tx: Transaction,
  academyId: Id,
  files: Readonly<Record<string, unknown>>,
  { approvedById }: { readonly approvedById: Id | null },
): Promise<EditionHead> {
  const inForce = await findEditionInForce(tx, academyId);
  if (inForce) return inForce;
  const { parts, problems } = readLibrary(files);
  if (!parts) throw new LibraryRefusedError(problems);
  const misfits = checkLibrary(parts, OUR_FORMULAS);
  if (misfits.length > 0) throw new LibraryRefusedError(misfits);
  await fillWorkingTables(tx, academyId, parts);
  const { faults, drills, checkpoints } = { ...parts.faults, ...parts.drills, ...parts.checkpoints };
  const summary = `The starter library: ${faults.length} faults, ${checkpoints.length} checkpoints, ${drills.length} drills.`;
  return writeEdition(tx, academyId, { number: 1, parts, summary, approvedById });
}

async function fillWorkingTables(tx: Transaction, academyId: Id, parts: LibraryParts): Promise<void> {
  const { faults } = parts.faults;
  const links = faults.map((fault) => faultLinkRows(academyId, fault));
  await tx.libraryPart.createMany({ data: partRows(academyId, parts) });
  await tx.checkpoint.createMany({ data: parts.checkpoints.checkpoints.map((checkpoint) => checkpointRow(academyId, checkpoint)) });
  await tx.symptom.createMany({ data: parts.symptoms.symptoms.map((symptom) => ({ academyId, ...symptom })) });
  await tx.fault.createMany({ data: faults.map((fault) => faultRow(academyId, fault)) });
  await tx.faultName.createMany({ data: faults.flatMap((fault) => faultNameRows(academyId, fault)) });
  await tx.faultCue.createMany({ data: faults.flatMap((fault) => faultCueRows(academyId, fault)) });
  await tx.faultSymptom.createMany({ data: links.flatMap(({ symptoms }) => symptoms) });
  await tx.faultCheckpoint.createMany({ data: links.flatMap(({ checkpoints }) => checkpoints) });
  await tx.causeNode.createMany({ data: causeNodeRows(academyId, parts) });
  await tx.causeEdge.createMany({ data: causeEdgeRows(academyId, parts) });
  await tx.drill.createMany({ data: parts.drills.drills.map((drill) => drillRow(academyId, drill)) });
  await tx.drillFault.createMany({ data: parts.drills.drills.flatMap((drill) => drillFaultRows(academyId, drill)) });
}

interface NewEdition {
  readonly number: number;
  readonly parts: LibraryParts;
  readonly summary: string;
  readonly approvedById: Id | null;
}

async function writeEdition(tx: Transaction, academyId: Id, { number, parts, summary, approvedById }: NewEdition): Promise<EditionHead> {
  return tx.edition.create({
    data: {
      id: newId(), academyId, number, contentHash: await contentHash(parts), snapshot: parts as Prisma.InputJsonObject, summary, approvedById, approvedAt: now(),
    },
    select: editionHead,
  });
}
