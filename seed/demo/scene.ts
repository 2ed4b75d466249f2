import type { Person } from "@/lib/access/actor";
import type { Id } from "@/lib/core/ids";
import type { SwingTruth } from "../media/truth";

/** One film of the demo, and who looks at it. */
export interface Scene {
  readonly playerId: Id;
  readonly side: "right" | "left";
  readonly swingId: Id;
  readonly clipId: Id;
  readonly truth: SwingTruth;
  readonly coach: Person;
  /** The player signed in, when there is such a login. */
  readonly player: Person | null;
}

/** What coaches make of one film. */
export type Story = (scene: Scene) => Promise<void>;
