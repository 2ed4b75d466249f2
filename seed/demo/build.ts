import { buildLibrary } from "../builders/library";
import { buildDemoPeople } from "./build-people";

/** The whole demo academy in an empty database. */
export async function buildDemo(): Promise<void> {
  const { academyId } = await buildDemoPeople();
  await buildLibrary(academyId);
}
