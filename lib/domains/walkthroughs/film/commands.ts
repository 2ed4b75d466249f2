import path from "node:path";
import type { Id } from "@/lib/core/ids";
import { blobs } from "@/lib/platform/blobs";
import type { Database } from "@/lib/platform/database";
import { FILM_FPS, makeFilm, makeVoice, takeFrames } from "@/lib/platform/video/make-film";
import { ScenePainter, type Scene } from "@/lib/platform/video/paint";
import type { VoicePart } from "@/lib/platform/voice/join-voices";
import { followList, type ClipTimes, type Stand } from "../list/rules";
import type { TakeList } from "../list/schema";
import { beginnings, cueAt, cuesShown, lengthMs, placeAt, sayMinutes } from "../rules";
import type { ChapterView, WalkthroughView } from "../view";
import { FILM_SIZE, sceneOf } from "./rules";

/** A walkthrough whose chapters can be painted at any instant; those that this program cannot read are left out. */
interface Painted {
  readonly chapters: readonly ChapterView[];
  readonly totalMs: number;
  standAt(ms: number): { readonly list: TakeList; readonly stand: Stand } | null;
}

function painted(view: WalkthroughView): Painted {
  const times = (list: TakeList): ClipTimes => list.clips.map(({ clipId }) => view.clips[clipId]?.clip?.frameTimes ?? null);
  const follow = new Map(view.takes.flatMap(({ id, list }) => (list ? [[id, { list, at: followList(list, times(list)) }] as const] : [])));
  const chapters = view.chapters.filter(({ takeId }) => follow.has(takeId));
  return {
    chapters,
    totalMs: lengthMs(chapters),
    standAt: (ms) => {
      const place = placeAt(chapters, ms);
      const take = place && follow.get(place.stretch.takeId);
      return place && take ? { list: take.list, stand: take.at(place.takeMs) } : null;
    },
  };
}

/** The frames that are wanted at some instants, by clip; of clips that may be shown only. */
async function openPictures(db: Database, view: WalkthroughView, { standAt }: Painted, instants: Iterable<number>, folder: string) {
  const wanted = new Map<Id, Set<number>>();
  for (const ms of instants) {
    const at = standAt(ms);
    at?.list.clips.forEach(({ clipId }, i) => {
      if (view.clips[clipId]?.clip) wanted.set(clipId, (wanted.get(clipId) ?? new Set()).add(at.stand.frames[i] ?? 0));
    });
  }
  const files = await db.clip.findMany({ where: { id: { in: [...wanted.keys()] } }, select: { id: true, firstFrame: true, lastFrame: true, file: { select: { steppingKey: true } } } });
  const paths = new Map<Id, ReadonlyMap<number, string>>();
  for (const { id, firstFrame, lastFrame, file } of files) {
    if ((await blobs().lengthOf(file.steppingKey)) === null) continue;
    // A clip counts its own frames; the copy of its film, those of the film.
    const frames = [...(wanted.get(id) ?? [])].filter((frame) => frame <= lastFrame - firstFrame).map((frame) => firstFrame + frame);
    const taken = await blobs().withFile(file.steppingKey, (copy) => takeFrames(copy, frames, path.join(folder, id)));
    paths.set(id, new Map([...taken].map(([frame, picture]) => [frame - firstFrame, picture])));
  }
  return (clipId: Id | undefined, frame: number) => (clipId ? (paths.get(clipId)?.get(frame) ?? null) : null);
}

type Pictures = Awaited<ReturnType<typeof openPictures>>;

function sceneAt(view: WalkthroughView, { standAt }: Painted, pictures: Pictures, ms: number, words: { readonly said: string | null; readonly hasFoot: boolean }): Scene {
  const at = standAt(ms);
  if (!at) return { ...FILM_SIZE, frames: [], strokes: [], labels: [], foot: null };
  const idOf = (clip: number) => at.list.clips[clip]?.clipId;
  const whyNot = (clip: number) => view.clips[idOf(clip) ?? ""]?.why ?? null;
  return sceneOf(at.list, at.stand, (clip, frame) => pictures(idOf(clip), frame), whyNot, words);
}

/** Lets work go on with the voices of chapters in the order in which they are told, each as long as its chapter. */
async function withVoices<T>(db: Database, chapters: readonly ChapterView[], work: (parts: readonly VoicePart[]) => Promise<T>): Promise<T> {
  const rows = await db.walkthroughTake.findMany({ where: { id: { in: chapters.map(({ takeId }) => takeId) } }, select: { id: true, voiceKey: true, voiceType: true } });
  const there = await Promise.all(rows.map(async (row) => ({ ...row, isThere: row.voiceKey !== null && (await blobs().lengthOf(row.voiceKey)) !== null })));
  const open = async (left: typeof there, files: ReadonlyMap<Id, VoicePart["file"]>): Promise<T> => {
    const [first, ...others] = left;
    if (!first) return work(chapters.map(({ takeId, fromMs, toMs }) => ({ file: files.get(takeId) ?? null, fromMs, toMs })));
    if (!first.isThere || !first.voiceKey) return open(others, files);
    const container = first.voiceType === "audio/mp4" ? "mp4" : "webm";
    return blobs().withFile(first.voiceKey, (file) => open(others, new Map([...files, [first.id, { path: file, container }]])));
  };
  return open(there, new Map());
}

/** Renders a walkthrough with its captions and its voice as an MP4. @param folder where to work; the film is written there */
export async function renderFilm(db: Database, view: WalkthroughView, folder: string): Promise<string> {
  const whole = painted(view);
  const cues = cuesShown(whole.chapters, Object.fromEntries(view.takes.map(({ id, cues: said }) => [id, said])));
  const frameCount = Math.max(1, Math.round((whole.totalMs / 1000) * FILM_FPS));
  const msOf = (index: number) => (index / FILM_FPS) * 1000;
  const instants = function* () {
    for (let i = 0; i < frameCount; i++) yield msOf(i);
  };
  const pictures = await openPictures(db, view, whole, instants(), folder);
  const target = path.join(folder, "film.mp4");
  const words = (ms: number) => ({ said: cueAt(cues, ms)?.text ?? null, hasFoot: cues.length > 0 });
  await withVoices(db, whole.chapters, (voices) => makeFilm(FILM_SIZE, frameCount, (i) => sceneAt(view, whole, pictures, msOf(i), words(msOf(i))), voices, target));
  return target;
}

const MOST_STILLS = 60;

/** One picture of a walkthrough with what was drawn, for who has nothing of ours to look at it with. */
export interface StillFile {
  readonly name: string;
  readonly bytes: Buffer;
}

/** Stills where a chapter begins, and where a drawing is done. */
export async function renderStills(db: Database, view: WalkthroughView, folder: string): Promise<readonly StillFile[]> {
  const whole = painted(view);
  const begins = beginnings(whole.chapters);
  const instants = whole.chapters.flatMap(({ takeId, fromMs, toMs }, i) => {
    const list = view.takes.find(({ id }) => id === takeId)?.list;
    const drawn = list?.happenings.flatMap((it) => (it.kind === "mark" && it.at + it.overMs >= fromMs && it.at + it.overMs < toMs ? [it.at + it.overMs] : [])) ?? [];
    return [fromMs, ...drawn].map((ms) => (begins[i] ?? 0) + ms - fromMs);
  });
  const kept = [...new Set(instants)].sort((a, b) => a - b).slice(0, MOST_STILLS);
  const pictures = await openPictures(db, view, whole, kept, folder);
  const painter = new ScenePainter(FILM_SIZE.width, FILM_SIZE.height);
  const files: StillFile[] = [];
  let before = "";
  for (const ms of kept) {
    const scene = sceneAt(view, whole, pictures, ms, { said: null, hasFoot: false });
    const key = JSON.stringify(scene);
    if (key === before) continue;
    before = key;
    await painter.paint(scene);
    files.push({ name: `${String(files.length + 1).padStart(2, "0")}-at-${sayMinutes(ms).replace(":", "m")}s.jpg`, bytes: painter.jpeg() });
  }
  return files;
}

/** The whole voice as one file; null where nobody spoke. */
export async function renderVoice(db: Database, view: WalkthroughView, folder: string): Promise<string | null> {
  return withVoices(db, painted(view).chapters, async (voices) => {
    if (voices.every(({ file }) => file === null)) return null;
    const target = path.join(folder, "voice.webm");
    await makeVoice(voices, target);
    return target;
  });
}
