import type { Id } from "@/lib/core/ids";
import type { PainPart } from "../rules";
import type { IncidentKind } from "./rules";

/** An incident note in the academy's list. */
export interface IncidentView {
  readonly id: Id;
  readonly playerId: Id;
  readonly playerName: string;
  readonly kind: IncidentKind;
  readonly part: PainPart;
  readonly happenedOn: string;
  readonly words: string;
  readonly firstAid: string;
  readonly notedBy: string;
  /** Who was told, by name. */
  readonly told: readonly string[];
  readonly isClearedByCoach: boolean;
  readonly isClearedByFamily: boolean;
  /** After a blow to the head: the day on which a clinician said yes. */
  readonly clinicianSaidOn: string | null;
}
