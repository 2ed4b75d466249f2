import { closeDatabase } from "@/lib/platform/database";
import { settings } from "@/lib/platform/settings";
import { demoFilms } from "./demo/films";
import { showFilms } from "./demo/show";

/** Draws the rest of the demo's films while the house is already open. It may be ended at any time and goes on next time. */
async function main(): Promise<void> {
  if (settings().DEMO === "on") await showFilms(demoFilms(settings().DEMO_CLIPS).rest, "worker");
}

main()
  .then(closeDatabase)
  .catch((error: unknown) => {
    console.error("The demo's films could not all be drawn:", error instanceof Error ? error.message : error);
    process.exit(1);
  });
