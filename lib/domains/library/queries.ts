import { z } from "zod";
import { authorize, type Granted, type Subject } from "@/lib/access/ability";
import { isPerson, type Actor } from "@/lib/access/actor";
import { defineQuery } from "@/lib/access/define-query";
import type { Guard } from "@/lib/access/guard";
import { NotFoundError, SignInNeededError } from "@/lib/core/errors";
import type { Id } from "@/lib/core/ids";
import type { Database } from "@/lib/platform/database";
import { readLibraryInForce } from "./policy";
import { checkpointDefinition, isMeasured } from "./rules";
import type { LibraryParts } from "./schema";
import { findEditionInForce, readEdition } from "./scope";
import type { EditionInForce, LibraryForMeasuring, LibraryForPlanning, LibraryForReasoning } from "./view";

/** The worker belongs to no academy and says which one it means; what a person says of it is not asked. */
const inAcademyForm = z.object({ academyId: z.uuid().optional() });
type InAcademy = z.infer<typeof inAcademyForm>;

function readers<Input extends InAcademy>(): Guard<Input, Granted<Subject, "library.read">, Actor> {
  return {
    words: readLibraryInForce.name,
    check: async (actor, input) => {
      if (actor.kind === "nobody") throw new SignInNeededError();
      const academyId = isPerson(actor) ? actor.academyId : input.academyId;
      return { actor, granted: authorize(actor, readLibraryInForce, academyId === undefined ? null : { academyId }) };
    },
  };
}

async function partsInForce(db: Database, academyId: Id): Promise<{ edition: EditionInForce; parts: LibraryParts }> {
  const head = await findEditionInForce(db, academyId);
  if (!head) throw new NotFoundError("library");
  const { id, number, contentHash, approvedAt, summary } = head;
  return { edition: { id, number, contentHash, approvedAt: approvedAt.toISOString(), summary }, parts: await readEdition(db, academyId, id) };
}

/** Which edition is in force; null before the first import. */
export const getEditionInForce = defineQuery({
  name: "library.get-edition-in-force",
  input: inAcademyForm,
  policy: readers<InAcademy>(),
  run: async ({ granted, db }): Promise<EditionInForce | null> => {
    const head = await findEditionInForce(db, granted.academyId);
    return head && { id: head.id, number: head.number, contentHash: head.contentHash, approvedAt: head.approvedAt.toISOString(), summary: head.summary };
  },
});

/** Everything that ranking and explaining need, of one edition. */
export const getLibraryForReasoning = defineQuery({
  name: "library.get-for-reasoning",
  input: inAcademyForm,
  policy: readers<InAcademy>(),
  run: async ({ granted, db }): Promise<LibraryForReasoning> => {
    const { edition, parts } = await partsInForce(db, granted.academyId);
    return {
      edition,
      graph: {
        nodes: parts.causes.nodes, edges: parts.causes.edges, faults: parts.faults.faults, symptoms: parts.symptoms.symptoms,
        phases: parts.phases.phases, symptomLeak: parts.causes.model.symptomLeak,
      },
      causes: parts.causes, faults: parts.faults.faults, symptoms: parts.symptoms.symptoms, checkpoints: parts.checkpoints.checkpoints,
      areas: parts.areas.areas, threeQuestions: parts.areas.threeQuestions, phases: parts.phases.phases,
      questions: parts.questions.questions, questionMethod: parts.questions.method, terms: parts.terms,
      rankingRules: {
        scoreWeights: parts.causes.ranking.scoreWeights, minProbability: parts.causes.ranking.minProbability, nearTie: parts.causes.ranking.nearTie,
        maxShown: parts.causes.ranking.maxShown, askFirst: parts.causes.ranking.askFirst, likelihood: parts.terms.likelihoodRule,
      },
    };
  },
});

/** What readings are taken by: every checkpoint, with whether this program can read it from a clip. */
export const getCheckpointDefinitions = defineQuery({
  name: "library.get-checkpoint-definitions",
  input: inAcademyForm,
  policy: readers<InAcademy>(),
  run: async ({ granted, db }): Promise<LibraryForMeasuring> => {
    const { edition, parts } = await partsInForce(db, granted.academyId);
    const checkpoints = parts.checkpoints.checkpoints.map((record) => ({
      id: record.id, name: record.name, area: record.area, phase: record.phase, isMeasured: isMeasured(record), definition: checkpointDefinition(record), record,
    }));
    return { edition, checkpoints, slap: parts.checkpoints.slap, terms: parts.terms, events: parts.phases.events };
  },
});

/** The drills that are approved, and what limits them. A draft is not among them. */
export const getDrillsForPlanning = defineQuery({
  name: "library.get-drills-for-planning",
  input: inAcademyForm,
  policy: readers<InAcademy>(),
  run: async ({ granted, db }): Promise<LibraryForPlanning> => {
    const { edition, parts } = await partsInForce(db, granted.academyId);
    return { edition, drills: parts.drills.drills, gear: parts.gear, loads: parts.loads, faults: parts.faults.faults, terms: parts.terms };
  },
});
