import type { Granted } from "@/lib/access/ability";
import { blobs } from "@/lib/platform/blobs";
import type { Database } from "@/lib/platform/database";
import { takeFrames } from "@/lib/platform/video/make-film";
import { makeSmall } from "@/lib/platform/video/make-small";
import { inWorkFolder } from "@/lib/platform/work-folder";
import type { WalkthroughSubject } from "../policy";
import type { WalkthroughView } from "../view";
import { readOpeningPlaces } from "./scope";

/** Makes those of a walkthrough's small stills that are not there yet. They lie with the film that they are of, and go with it. */
export async function keepOpening(db: Database, { academyId }: Granted<WalkthroughSubject, "walkthrough.make-opening">, view: WalkthroughView): Promise<void> {
  for (const { filmFrame, key, steppingKey } of await readOpeningPlaces(db, academyId, view)) {
    if ((await blobs().lengthOf(key)) !== null || (await blobs().lengthOf(steppingKey)) === null) continue;
    await inWorkFolder(async (folder) => {
      const taken = await blobs().withFile(steppingKey, (copy) => takeFrames(copy, [filmFrame], folder));
      const picture = taken.get(filmFrame);
      if (picture) await blobs().keepFile(key, await makeSmall(picture, folder));
    });
  }
}
