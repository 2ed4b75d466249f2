import { beginnings, cuesShown, lengthMs, sayMinutes } from "../rules";
import type { WalkthroughView } from "../view";
import { writeCaptions } from "../words/rules";

interface TextFile {
  readonly name: string;
  readonly words: string;
}

/** The texts of a parcel: what is in it, the captions, and everything that was shown, in order. */
export function parcelOf(view: WalkthroughView, { hasVoice, stills }: { readonly hasVoice: boolean; readonly stills: readonly string[] }): readonly TextFile[] {
  const begins = beginnings(view.chapters);
  const captions = writeCaptions(cuesShown(view.chapters, Object.fromEntries(view.takes.map(({ id, cues }) => [id, cues]))));
  const chapters = view.chapters.map(({ title, about, takeId, fromMs, toMs }, i) => ({ title, about, beginsMs: begins[i] ?? 0, take: view.takes.findIndex(({ id }) => id === takeId), fromMs, toMs }));
  const told = {
    form: "walkthrough", title: view.title, summary: view.summary, by: view.from, day: view.madeOn, lengthMs: lengthMs(view.chapters), chapters,
    // A clip that may not be shown is named by nothing but its place.
    takes: view.takes.map(({ list, durationMs }) => ({ durationMs, shown: list && { ...list, clips: list.clips.map(({ clipId, ...clip }) => (view.clips[clipId]?.clip ? { ...clip, clipId } : { ...clip, marks: [] })) } })),
  };
  const letter = [
    view.title, `By ${view.from}, ${view.madeOn}. ${sayMinutes(lengthMs(view.chapters))} minutes.`, "", ...(view.summary ? [view.summary, ""] : []),
    "Chapters:", ...chapters.map(({ beginsMs, title }) => `  ${sayMinutes(beginsMs)}  ${title}`), "",
    "What is here:",
    ...(hasVoice ? ["  voice.webm        the voice, for any player of sound (Opus in WebM)"] : ["  No voice was recorded; the words are in captions.vtt."]),
    "  captions.vtt      the words with their times (WebVTT), for any player that shows captions",
    ...(stills.length > 0 ? ["  stills/           pictures with what was drawn on them; the name says when"] : []),
    "  walkthrough.json  everything that was shown, with its time in milliseconds",
  ];
  return [
    { name: "README.txt", words: `${letter.join("\r\n")}\r\n` },
    { name: "captions.vtt", words: captions },
    { name: "walkthrough.json", words: `${JSON.stringify(told, null, 2)}\n` },
  ];
}
