import { lineWords, writtenDeg } from "@/lib/measure/camera/line-words";
import { defineWords } from "@/lib/ui/words/define-words";
import type { CameraFacts } from "../schema";
import type { CameraView } from "../view";

/** The texts of where a camera stood and how fast it filmed. */
const en = {
  title: "How the camera stood",
  unknown: "Not known. Readings are taken as if it stood on the line.",
  stated: (degrees: string) => `${degrees} off the line, as a coach said.`,
  onLine: "On the line, as a coach said.",
  from: { plate: "Told from home plate.", widths: "Told from the body at the stance: rough, since hitters set up differently." },
  body: (words: string) => `From the body at the stance: ${words}`,
  atOdds: "Home plate and the body do not fit together. Look at the corners and at the points of the stance again.",
  markPlate: "Mark home plate",
  markAgain: "Mark home plate again",
  tap: (done: number) => (done === 0 ? "Tap the five corners of home plate in the picture, in any order. Go close first." : `${done} of 5 corners.`),
  takeBack: "Take the last one back",
  stop: "Leave it",
  keep: "Keep this",
  keepBody: "Keep what the body says",
  setOnLine: "It stood on the line",
  setUnknown: "Say it is not known",
  degrees: "Degrees off the line",
  keepDegrees: "Keep the degrees",
  wrongDegrees: "Write the angle in degrees, from 0 to 90.",
  undo: "Undo",
  slow: {
    title: "How fast it was filmed",
    asStated: "A coach said how fast it was filmed.",
    yes: (times: number) => (times === 1 ? "Yes, it plays at real speed" : `Yes, slowed ${times} times`),
    other: (times: number) => (times === 1 ? "Real speed" : `Slowed ${times} times`),
    unknown: "I do not know",
    kept: (times: number) => (times === 1 ? "Kept: real speed." : `Kept: slowed ${times} times.`),
  },
  stand: {
    title: "Before you film",
    side: "Stand square to the line from mound to plate, level with the belt button, four to six metres away, lens at belt height.",
    rear: "Stand on the line from mound to plate, behind the net or the catcher, lens at belt height.",
    front: "Put the camera on the line from mound to plate, behind a screen. Nobody stands there without one.",
    greys: "More than 6 degrees off greys turn and direction readings; more than 15 greys every reading that needs the line.",
    unknown: "Nobody said where the camera stood last time. Keep home plate in the picture: its corners tell the angle afterwards.",
  },
};
export const cameraWords = defineWords({ en });

/** What is known of where a clip's camera stood, in a sentence or two. */
export function keptLineWords({ cameraOffDeg, cameraOffSdDeg, cameraOffSource }: CameraFacts, view: CameraView): string {
  if (cameraOffDeg === null) return cameraWords.unknown;
  if (cameraOffSource === "plate" || cameraOffSource === "widths") {
    return `${lineWords({ offDeg: cameraOffDeg, sdDeg: cameraOffSdDeg ?? 0, isSignKnown: true }, view)} ${cameraWords.from[cameraOffSource]}`;
  }
  const written = writtenDeg(cameraOffDeg);
  return written === 0 ? cameraWords.onLine : cameraWords.stated(written === 1 ? "1 degree" : `${written} degrees`);
}
